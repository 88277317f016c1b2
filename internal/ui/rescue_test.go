package ui

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
	"meltwright/internal/quote"
	"meltwright/internal/reference"
	"meltwright/internal/shop"
)

func TestWhatTheDiskRefusesLiesInAFileOfItsOwnAndComesBack(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "rescued")
	sheltered := func() []string {
		found, err := filepath.Glob(filepath.Join(folder, "*"))
		require.NoError(t, err)
		return found
	}
	b := sit(t, func(o *Options) { o.Rescue = folder })
	b.menu("New quote")
	b.store.fail = fault.Fault{Problem: "the disk is full", Remedy: "make some room"}
	b.typed("Heron")
	b.clock.pass(time.Second)
	require.Len(t, sheltered(), 1)
	assert.Contains(t, b.said(), "Meanwhile it also lies in "+sheltered()[0])
	b.fill("head.place", "Cannery Quay")
	b.clock.pass(time.Minute)
	require.Len(t, sheltered(), 1, "one file, however often")
	kept, err := os.ReadFile(sheltered()[0])
	require.NoError(t, err)
	assert.Contains(t, string(kept), "Cannery Quay", "as it was typed last")

	// Closed nevertheless; the next window offers it.
	b.w.close()
	b.tap("Close and lose them")
	again := sit(t, func(o *Options) { o.Rescue = folder })
	assert.Contains(t, again.said(), "Bring back what could not be kept?")
	again.tap("Bring back as new quotes")
	assert.Contains(t, again.said(), "1 quote brought back.")
	assert.Contains(t, again.said(), "Heron")
	assert.Empty(t, sheltered())
}

func TestTheFileGoesOnceTheDiskTakesTheChangeAgain(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "rescued")
	b := sit(t, func(o *Options) { o.Rescue = folder })
	b.menu("New quote")
	b.store.fail = fault.Fault{Problem: "the disk is full", Remedy: "make some room"}
	b.typed("Heron")
	b.clock.pass(time.Second)
	b.store.fail = nil
	b.clock.pass(time.Minute)
	left, err := filepath.Glob(filepath.Join(folder, "*"))
	require.NoError(t, err)
	assert.Empty(t, left)
	assert.Equal(t, "Heron", b.kept().Commission.Title)
}

// A disk that is really full: what is typed there is told, lies elsewhere
// meanwhile, and is kept as soon as there is room.
func TestATrulyFullDiskLosesNothingThatIsTyped(t *testing.T) {
	disk, folder := reference.Disk(t, "1m"), filepath.Join(t.TempDir(), "rescued")
	b := sit(t, func(o *Options) { o.Path, o.Rescue = filepath.Join(disk, "quotes.db"), folder })
	b.menu("New quote")
	b.typed("Heron")
	b.clock.pass(time.Second)
	ballast := filepath.Join(disk, "ballast")
	require.Error(t, os.WriteFile(ballast, make([]byte, 2<<20), 0o600), "the disk is full")
	for i := 0; len(b.w.keepings) == 0 && i < 200; i++ {
		b.typed(" of the weir, which stands on one leg until the tide turns")
		b.clock.pass(time.Second)
	}
	assert.Contains(t, b.said(), "the disk is full")
	assert.Contains(t, b.said(), "Meanwhile it also lies in "+folder)
	title := b.quote().sheet.Commission().Title
	require.NoError(t, os.Remove(ballast))
	b.clock.pass(time.Minute)
	assert.Equal(t, title, b.kept().Commission.Title)
	assert.NotContains(t, b.said(), "Not kept yet")
}

// A disk that takes nothing: the file opens to read, and what is typed all the
// same lies elsewhere and comes back in a window that may write.
func TestWhatIsTypedOverAReadOnlyDiskComesBackWhereItCanBeKept(t *testing.T) {
	disk, folder := reference.Disk(t, "1m"), filepath.Join(t.TempDir(), "rescued")
	path := filepath.Join(disk, "quotes.db")
	at := func(o *Options) {
		withCopies(o)
		o.Demo, o.Path, o.Rescue = false, path, folder
	}
	b := sit(t, at)
	b.menu("New quote")
	b.typed("Heron")
	b.w.close()
	require.NoError(t, b.w.End())
	b.w.desk = nil
	require.NoError(t, exec.Command("mount", "-o", "remount,ro", disk).Run())
	b = sit(t, at)
	assert.Contains(t, b.said(), "Your quotes cannot be opened")
	b.tap("Open to read only")
	b.w.list.list.OnOpen(0)
	b.menu("Previous stage")
	b.typed("Herons in the reeds")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "what you change here is not kept in this file. Meanwhile it also lies in "+folder)
	b.w.close()
	require.NoError(t, b.w.End())
	b.w.desk = nil
	require.NoError(t, exec.Command("mount", "-o", "remount,rw", disk).Run())
	b = sit(t, at)
	b.tap("Bring back as new quotes")
	assert.Contains(t, b.said(), "Herons in the reeds")
	assert.Contains(t, b.said(), "2 quotes")
}

// changedElsewhere saves another title from beside the window.
func (b *bench) changedElsewhere(title string) {
	b.Helper()
	other := b.kept()
	other.Commission.Title = title
	_, err := b.store.Store.Save(context.Background(), other, "", noon)
	require.NoError(b, err)
}

func TestAQuoteChangedElsewhereCanBeOpenedAgainWithOrWithoutACopyOfMine(t *testing.T) {
	for choice, want := range map[string]int{"Open without mine": 1, "Keep mine as a copy, then open": 2} {
		b := sit(t)
		b.menu("New quote")
		b.typed("Heron")
		b.clock.pass(time.Second)
		b.changedElsewhere("Stork")
		b.typed("s in the reeds")
		b.clock.pass(time.Second)
		b.tap("Open again")
		b.tap(choice)
		assert.Equal(t, "Stork", b.quote().sheet.Commission().Title, choice)
		assert.NotContains(t, b.said(), "Not kept")
		_, total, err := b.store.List(t.Context(), quote.Filter{})
		require.NoError(t, err)
		assert.Equal(t, want, total)
	}
}

func TestAShopBookChangedElsewhereIsSettledByWhoeverTypes(t *testing.T) {
	for choice, want := range map[string]string{"Keep what is here": "", "Take the other's": "44 / h"} {
		b := sit(t)
		b.menu("Shop book")
		other, err := b.w.options.Open(t.Context(), b.path, false)
		require.NoError(t, err)
		_, err = other.Book(t.Context())
		require.NoError(t, err)
		require.NoError(t, other.SaveBook(t.Context(), shop.Start().With("labour.wax", "44 / h", "2026-03-14"), noon))
		require.NoError(t, other.Close())
		b.fill("house.name", "Cinder Lane Foundry")
		b.clock.pass(time.Second)
		assert.Contains(t, b.said(), "the shop book was changed in another window")
		b.tap(choice)
		assert.NotContains(t, b.said(), "Not kept")
		kept := b.w.desk.Book()
		assert.Equal(t, want, map[bool]string{true: "44 / h"}[kept.Settings["labour.wax"].Text == "44 / h"], choice)
		assert.Equal(t, want == "", kept.Shop == "Cinder Lane Foundry")
	}
}
