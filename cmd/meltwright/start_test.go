package main

import (
	"bufio"
	"context"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/app"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"meltwright/internal/buildinfo"
	"meltwright/internal/desk"
	"meltwright/internal/quote"
	"meltwright/internal/sqlite"
	"meltwright/internal/ui"
)

// opening tells this test program to open a window instead of testing: "bare",
// or the path of a store for ours. It prints when its first frame is drawn.
const opening = "MELTWRIGHT_TEST_OPENS"

func TestMain(m *testing.M) {
	switch what := os.Getenv(opening); what {
	case "":
		os.Exit(m.Run())
	case "bare":
		openBare()
	default:
		openOurs(what)
	}
}

// openBare opens a window of the toolkit with one word in it.
func openBare() {
	a := app.NewWithID("ca.meltwright.bare")
	win := a.NewWindow("bare")
	win.Resize(fyne.NewSize(1280, 820))
	win.SetContent(probed(a, widget.NewLabel("bare")))
	win.ShowAndRun()
}

// openOurs opens our window at a store, as run does.
func openOurs(path string) {
	a := app.NewWithID(buildinfo.ID)
	ui.Dress(a)
	win := a.NewWindow(buildinfo.Name)
	work := &told{Work: ui.NewWork(), jobs: 2} // the store is opened, the list read
	w := ui.New(a, win, ui.Options{Open: open, Path: path, Now: time.Now, Work: work, After: ui.Later})
	win.SetContent(probed(a, win.Content()))
	w.Start()
	win.ShowAndRun()
}

// probed lays a point over content that says when it is drawn for the first
// time, and ends the program at its second.
func probed(a fyne.App, content fyne.CanvasObject) fyne.CanvasObject {
	drawn := 0
	probe := canvas.NewRaster(func(int, int) image.Image {
		if drawn++; drawn == 1 {
			say("frame")
			time.AfterFunc(2*time.Second, func() { fyne.Do(a.Quit) })
		}
		return image.NewNRGBA(image.Rect(0, 0, 1, 1))
	})
	return container.NewStack(content, probe)
}

// told says when so many jobs have been applied.
type told struct {
	ui.Work
	jobs int
}

func (w *told) Do(job func() func()) {
	w.Work.Do(func() func() {
		apply := job()
		return func() {
			if apply != nil {
				apply()
			}
			if w.jobs--; w.jobs == 0 {
				say("list")
			}
		}
	})
}

// say prints what has happened and when.
func say(what string) { fmt.Println(what, time.Now().UnixNano()) }

// opens runs this program as a window and gives how long after its start the
// things that it says happened.
func opens(b *testing.B, env []string, what string) map[string]time.Duration {
	b.Helper()
	self, err := os.Executable()
	require.NoError(b, err)
	c := exec.Command(self)
	c.Env = append(slices.Clone(env), opening+"="+what)
	out, err := c.StdoutPipe()
	require.NoError(b, err)
	began := time.Now()
	require.NoError(b, c.Start())
	took := map[string]time.Duration{}
	for lines := bufio.NewScanner(out); lines.Scan(); {
		name, stamp, _ := strings.Cut(lines.Text(), " ")
		if ns, err := strconv.ParseInt(stamp, 10, 64); err == nil {
			took[name] = time.Unix(0, ns).Sub(began)
		}
	}
	require.NoError(b, c.Wait())
	require.NotZero(b, took["frame"], "no frame was drawn")
	return took
}

// manyQuotes makes a store of so many quotes and gives its path.
func manyQuotes(b *testing.B, n int) string {
	b.Helper()
	ctx := context.Background()
	path := filepath.Join(b.TempDir(), "quotes.db")
	s, err := sqlite.Open(ctx, path)
	require.NoError(b, err)
	demo := desk.Demo()
	for i := range n {
		q := quote.Quote{State: quote.Draft, Commission: demo[i%len(demo)].Commission}
		q.Commission.Title += " " + strconv.Itoa(i)
		_, err := s.Save(ctx, q, "$12,340", time.Now())
		require.NoError(b, err)
	}
	require.NoError(b, s.Close())
	return path
}

// BenchmarkWindowStart opens a bare window of the toolkit and ours with 10,000
// quotes in its store, turn by turn, and compares the middle times from the
// start of the program to the first frame, and the shortest, which other work on
// the machine disturbs least; list is the time until the quotes have been read
// and shown.
func BenchmarkWindowStart(b *testing.B) {
	store := manyQuotes(b, 10_000)
	env := screen(b)
	opens(b, env, "bare") // once for the disk's sake
	opens(b, env, store)
	var bare, ours, list []time.Duration
	for b.Loop() {
		bare = append(bare, opens(b, env, "bare")["frame"])
		t := opens(b, env, store)
		ours, list = append(ours, t["frame"]), append(list, t["list"])
	}
	b.ReportMetric(middle(bare).Seconds()*1000, "bare-ms")
	b.ReportMetric(middle(ours).Seconds()*1000, "ours-ms")
	b.ReportMetric(middle(list).Seconds()*1000, "list-ms")
	b.ReportMetric(middle(ours).Seconds()/middle(bare).Seconds(), "×bare")
	b.ReportMetric(slices.Min(ours).Seconds()/slices.Min(bare).Seconds(), "×bare-shortest")
	b.ReportMetric(0, "ns/op") // it would only be how long the windows stay open
}

func middle(d []time.Duration) time.Duration {
	slices.Sort(d)
	return d[len(d)/2]
}
