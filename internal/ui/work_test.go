package ui

import (
	"sync"
	"testing"
	"time"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
)

func TestJobsAreDoneInTheOrderTheyAreHandedIn(t *testing.T) {
	test.NewTempApp(t)
	q := NewWork()
	var done []int
	for i := range 100 {
		q.Do(func() func() {
			done = append(done, i)
			return nil
		})
	}
	assert.True(t, q.Close(10*time.Second))
	assert.Len(t, done, 100)
	assert.IsIncreasing(t, done)
}

func TestWhatAJobGivesBackIsAppliedByTheWindow(t *testing.T) {
	test.NewTempApp(t)
	q := NewWork()
	var applied sync.WaitGroup
	applied.Add(1)
	q.Do(func() func() { return applied.Done })
	applied.Wait()
	assert.True(t, q.Close(10*time.Second))
}

func TestClosingDoesNotWaitForEver(t *testing.T) {
	test.NewTempApp(t)
	q := NewWork()
	hold := make(chan struct{})
	q.Do(func() func() {
		<-hold
		return nil
	})
	assert.False(t, q.Close(time.Millisecond))
	close(hold)
}

func TestAPanicInAJobIsOneOfTheWindows(t *testing.T) {
	apply := sound(func() func() { panic("no disk") })
	assert.PanicsWithValue(t, "no disk", apply)
}
