package desk_test

import (
	"bytes"
	"io"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/desk"
	"meltwright/internal/estimate"
	"meltwright/internal/shop"
)

// titles writes of every paper only which it is and the work's title.
type titles struct{}

func (titles) Proposal(w io.Writer, p desk.Paper) error  { return title(w, "proposal", p) }
func (titles) CostSheet(w io.Writer, p desk.Paper) error { return title(w, "cost sheet", p) }
func (titles) Workbook(w io.Writer, p desk.Paper) error  { return title(w, "workbook", p) }

func title(w io.Writer, which string, p desk.Paper) error {
	_, err := io.WriteString(w, which+" of "+p.Quote.Commission.Title)
	return err
}

func TestAPaperIsOfTheMomentItWasAskedFor(t *testing.T) {
	d, err := desk.New(t.Context(), &shelf{book: shop.Start()}, titles{}, time.Now)
	require.NoError(t, err)
	s := d.PutNew()
	s.Change("", func(c *estimate.Commission) { c.Title = "Heron" })
	for which, want := range map[desk.Print]string{desk.Proposal: "proposal of Heron", desk.CostSheet: "cost sheet of Heron", desk.Workbook: "workbook of Heron"} {
		write, err := s.Ready(which)
		require.NoError(t, err)
		s.Change("title", func(c *estimate.Commission) { c.Title = "Stork" })
		var b bytes.Buffer
		require.NoError(t, write(&b))
		assert.Equal(t, want, b.String())
		s.Undo()
	}
}

func TestAQuoteWithFaultsHasNoPapers(t *testing.T) {
	d, _ := sitDown(t)
	s := d.PutNew()
	s.Set(0, "form.wall", "no")
	_, err := s.Ready(desk.Proposal)
	assert.ErrorContains(t, err, "Wall thickness")
	s.Undo()
	_, err = s.Ready(desk.Proposal)
	assert.ErrorContains(t, err, "without papers")
}
