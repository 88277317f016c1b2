package main

// bench runs the benchmarks of every package, one package at a time so that
// none disturbs another's figures; a pattern picks those whose names match.
func bench(h house, args []string) error {
	pattern := "."
	if len(args) > 0 {
		pattern = args[0]
	}
	return h.show(testSettings(tags, false), "go", "test", "-run", "^$", "-bench", pattern, "-benchmem", "-tags", tags, "./...")
}
