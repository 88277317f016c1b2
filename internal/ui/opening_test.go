package ui

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"meltwright/internal/desk"
	"meltwright/internal/fault"
	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
)

// locked refuses to open, but to read only, until it is unlocked.
type locked struct {
	unlocked bool
	asked    []string
}

func (l *locked) options(o *Options) {
	open := o.Open
	o.Open = func(ctx context.Context, path string, readOnly bool) (quote.Store, error) {
		l.asked = append(l.asked, filepath.Base(path))
		if !l.unlocked && !readOnly {
			return nil, fault.Fault{Field: "The file", Problem: "is in use by another program", Remedy: "close that first"}
		}
		if readOnly {
			return desk.NoStore{}, nil
		}
		return open(ctx, path, false)
	}
}

func TestAStoreThatCannotBeOpenedSaysWhyAndOffersWaysOn(t *testing.T) {
	l := &locked{}
	b := sit(t, l.options)
	assert.Contains(t, b.said(), "Your quotes cannot be opened")
	assert.Contains(t, b.said(), "The file is in use by another program; close that first.")
	b.tap("Try again")
	assert.Contains(t, b.said(), "cannot be opened")
	l.unlocked = true
	b.tap("Try again")
	assert.Contains(t, b.said(), "No quotes yet.")
	assert.Equal(t, []string{"quotes.db", "quotes.db", "quotes.db"}, l.asked)
}

func TestAnotherFileCanBeChosen(t *testing.T) {
	l := &locked{}
	b := sit(t, l.options)
	b.tap("Choose another file …")
	l.unlocked = true
	b.answer(filepath.Join(t.TempDir(), "other.db"))
	assert.Contains(t, b.said(), "other.db")
	b.menu("New quote")
	assert.NotZero(t, b.quote().sheet.Quote().ID)
}

func TestAFileOfANewerVersionIsNotOfferedToRead(t *testing.T) {
	b := sit(t, func(o *Options) {
		o.Open = func(context.Context, string, bool) (quote.Store, error) { return nil, quote.ErrNewer }
	})
	assert.Contains(t, b.said(), "Your quotes cannot be opened")
	assert.Contains(t, b.said(), "Choose another file")
	assert.NotContains(t, b.said(), "Open to read only")
}

func TestAStoreCanBeOpenedToReadOnly(t *testing.T) {
	l := &locked{}
	b := sit(t, l.options)
	b.tap("Open to read only")
	assert.Contains(t, b.said(), "quotes.db · to read only")
	assert.Contains(t, b.said(), "what you change here is not kept")
	b.menu("New quote")
	b.typed("Heron")
	b.clock.pass(time.Minute)
	assert.NotContains(t, b.said(), "Not kept yet", "that is known")
	b.w.close()
	assert.True(t, b.closed)
}

func TestTheDemoBusinessIsPutIntoAnEmptyStoreOnce(t *testing.T) {
	b := sit(t, withDemo)
	assert.Equal(t, "The Weir Keeper", b.quote().sheet.Commission().Title)
	again, _, err := sitDown(t.Context(), Options{
		Demo: true, Now: b.w.options.Now,
		Open: func(ctx context.Context, path string, _ bool) (quote.Store, error) { return sqlite.Open(ctx, path) },
	}, b.path, false)
	assert.NoError(t, err)
	_, total, err := again.List(t.Context(), quote.Filter{})
	assert.NoError(t, err)
	assert.Equal(t, len(desk.Demo()), total)
	assert.NoError(t, again.Close())
}
