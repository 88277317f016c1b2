package mesh

// zeroes makes n zeroes in memory that is at hand. A page of fresh memory that
// is read before it is written is fetched twice, and the second time halts all
// cores: so one number in each page is written before any is read.
func zeroes(n int) []uint32 {
	const page = 4096 / 4
	s := make([]uint32, n)
	for i := 0; i < n; i += page {
		s[i] = 0
	}
	return s
}
