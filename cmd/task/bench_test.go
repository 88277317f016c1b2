package main

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAPatternPicksBenchmarks(t *testing.T) {
	h := smallHouse(t, map[string]string{"a/a_test.go": testFile(`
func BenchmarkWall(b *testing.B)  { for b.Loop() {} }
func BenchmarkPrice(b *testing.B) { for b.Loop() {} }`)})
	require.NoError(t, bench(h, []string{"Wall"}))
	said := fmt.Sprint(h.out)
	assert.Regexp(t, `BenchmarkWall\S*\s+\d+\s+\S+ ns/op\s+0 B/op`, said)
	assert.NotContains(t, said, "BenchmarkPrice")
}
