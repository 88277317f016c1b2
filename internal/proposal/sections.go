package proposal

// Sections lists the parts that a proposal can have, in their usual order.
func (Maker) Sections() []string { return Sections() }

// Usual lists those that a proposal has where its quote chooses none.
func (Maker) Usual() (keys []string) {
	for _, s := range sections {
		if !s.asked {
			keys = append(keys, s.key)
		}
	}
	return keys
}
