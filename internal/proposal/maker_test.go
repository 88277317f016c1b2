package proposal

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// broken takes nothing.
type broken struct{}

var errBroken = errors.New("no more room")

func (broken) Write([]byte) (int, error) { return 0, errBroken }

func TestWhatCannotBeWrittenIsTold(t *testing.T) {
	p := paperOf(t, edition())
	require.ErrorIs(t, Maker{}.Proposal(broken{}, p), errBroken)
	require.ErrorIs(t, Maker{}.CostSheet(broken{}, p), errBroken)
	require.ErrorIs(t, Maker{}.Workbook(broken{}, p), errBroken)
}

func TestALibraryThatPanicsIsAnErrorAndWritesNothing(t *testing.T) {
	var out bytes.Buffer
	err := send(&out, func(b *bytes.Buffer) error {
		b.WriteString("half a paper")
		panic("index out of range")
	})
	assert.ErrorContains(t, err, "Paper could not be made (index out of range)")
	assert.Zero(t, out.Len())
}

func BenchmarkProposal(b *testing.B) {
	p := paperOf(b, waterfront())
	b.ReportAllocs()
	for b.Loop() {
		var out bytes.Buffer
		if err := (Maker{}).Proposal(&out, p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCostSheet(b *testing.B) {
	p := paperOf(b, waterfront())
	b.ReportAllocs()
	for b.Loop() {
		var out bytes.Buffer
		if err := (Maker{}).CostSheet(&out, p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWorkbook(b *testing.B) {
	p := paperOf(b, waterfront())
	b.ReportAllocs()
	for b.Loop() {
		var out bytes.Buffer
		if err := (Maker{}).Workbook(&out, p); err != nil {
			b.Fatal(err)
		}
	}
}
