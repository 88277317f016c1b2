package ui

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/mesh"
	"meltwright/internal/ui/kit"
)

// bottle writes a text STL of a turned form, 300 mm high and closed at both ends,
// standing along y: a jar with a shoulder, made of rings of 24 points.
func bottle(t testing.TB, name string) string {
	t.Helper()
	rings := [][2]float64{{60, 0}, {70, 40}, {75, 100}, {70, 170}, {40, 210}, {25, 240}, {30, 300}}
	const n = 24
	at := func(ring, k int) [3]float64 {
		a := 2 * math.Pi * float64(k%n) / n
		return [3]float64{rings[ring][0] * math.Cos(a), rings[ring][1], -rings[ring][0] * math.Sin(a)}
	}
	var b strings.Builder
	face := func(p ...[3]float64) {
		b.WriteString("facet normal 0 0 0\nouter loop\n")
		for _, v := range p {
			fmt.Fprintf(&b, "vertex %g %g %g\n", v[0], v[1], v[2])
		}
		b.WriteString("endloop\nendfacet\n")
	}
	b.WriteString("solid bottle\n")
	top := len(rings) - 1
	for k := range n {
		face([3]float64{0, 0, 0}, at(0, k+1), at(0, k))
		face([3]float64{0, rings[top][1], 0}, at(top, k), at(top, k+1))
		for r := range top {
			face(at(r, k), at(r, k+1), at(r+1, k+1))
			face(at(r, k), at(r+1, k+1), at(r+1, k))
		}
	}
	b.WriteString("endsolid bottle\n")
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o600))
	return path
}

// openBottle opens the bottle for the piece of a new quote, through the form page
// and the question for its path.
func openBottle(t testing.TB, change ...func(*Options)) (*bench, *scanScreen) {
	t.Helper()
	path := bottle(t, "bottle.stl")
	b := sit(t, change...)
	b.menu("New quote")
	b.menu("Next stage")
	b.pick("form.known_by", "scan")
	b.answerPath(path)
	return b, b.scan()
}

// answerPath opens a scan by its path.
func (b *bench) answerPath(path string) {
	b.Helper()
	b.tap("Open a scan …")
	e, ok := b.focused().(*kit.Entry)
	require.True(b, ok)
	e.SetText(path)
	b.press(fyne.KeyReturn)
}

// scan is the scan screen that is shown.
func (b *bench) scan() *scanScreen {
	b.Helper()
	s, ok := b.w.screen.(*scanScreen)
	require.True(b, ok, "no scan is open, but %T", b.w.screen)
	return s
}

func TestAScanIsOpenedMeasuredAndBecomesTheFormInOneStepOfUndo(t *testing.T) {
	b, s := openBottle(t)
	assert.Contains(t, b.said(), "bottle.stl · text STL · 336 triangles")
	assert.Contains(t, b.said(), "Being measured")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "Measured below the skin")
	assert.Contains(t, b.said(), "need an engineer")
	require.True(t, s.numbers.tried.ok)
	expected := headline(s.numbers.tried.estimate)

	b.tap("Use this scan")
	assert.Equal(t, expected, b.price(), "the price is the one that was foretold")
	k := b.quote().pieces()[0].Scan
	require.NotNil(t, k)
	assert.Equal(t, "bottle.stl", k.File)
	assert.Contains(t, b.said(), "bottle.stl, text STL, 336 triangles: as scanned 30 cm high")
	b.clock.pass(time.Second)
	require.NotNil(t, b.kept().Commission.Pieces[0].Scan, "it is kept with the quote")

	b.menu("Undo")
	assert.Nil(t, b.quote().pieces()[0].Scan)
	b.menu("Redo")
	assert.Equal(t, expected, b.price())
}

func TestTheUnitAndTheWayUpAreProposedAndAnswered(t *testing.T) {
	b, s := openBottle(t)
	b.clock.pass(time.Second)
	assert.Equal(t, "mm: 30 cm high", b.field("scan.unit").Text())
	assert.Equal(t, mesh.YUp, s.how.Up, "it stands along y, on its broad foot")
	was := s.standing
	b.pick("scan.unit", "cm: 3 m high")
	assert.NotSame(t, was, s.standing, "the picture is another at once")
	assert.InDelta(t, 3, s.box.Box()[2], 1e-6)
	b.pick("scan.up", "z up")
	assert.InDelta(t, 1.5, s.box.Box()[2], 0.02, "lying on its side it is as high as it is wide")
	b.pick("scan.front", "half a turn")
	assert.Equal(t, 2, s.how.Turn)
	b.clock.pass(time.Second)
	assert.True(t, s.refined)
}

func TestTheNumbersFollowTheHeightAndTheWall(t *testing.T) {
	b, s := openBottle(t)
	b.clock.pass(time.Second)
	as := s.numbers.tried.piece
	b.fill("form.height", "60 cm")
	assert.InEpsilon(t, 4*float64(as.Area), float64(s.numbers.tried.piece.Area), 1e-6)
	assert.Contains(t, b.said(), "Surface × wall would give")
	b.fill("form.wall", "4 mm")
	r := s.numbers.tried.piece
	assert.Less(t, float64(r.Finished), s.numbers.surfaceTimesWall(), "a jar bulges: below its skin there is less room than above")
	b.fill("form.wall", "-4 mm")
	assert.Contains(t, b.said(), "is below zero")
	assert.Contains(t, b.said(), "The weights wait for something to be put right")
	b.menu("Undo")
	assert.True(t, s.numbers.tried.ok)
}

func TestPlanesAreAddedMovedTiltedAndDropped(t *testing.T) {
	b, s := openBottle(t)
	b.fill("form.height", "1.2 m")
	b.clock.pass(time.Second)
	b.tap("Drop all planes")
	b.tap("Add a plane")
	assert.Equal(t, "0.6 m", b.field("plane.height").Text(), "in the middle")
	require.Len(t, s.planes.plan.Sections, 2)
	r := s.numbers.tried.piece
	whole := float64(r.Finished)
	assert.Equal(t, 2, len(s.planes.shown.fromTop()))

	b.fill("plane.height", "40 cm")
	assert.False(t, s.planes.good, "it is weighed when the plane stays where it is")
	b.clock.pass(time.Second)
	require.True(t, s.planes.good)
	girth := 0.0
	for _, l := range s.planes.list[0].loops {
		girth += l.Length
	}
	assert.InEpsilon(t, 2*math.Pi*0.075*4, girth*4, 0.01, "at a third of its height the jar is 150 mm wide, fourfold")
	assert.InEpsilon(t, girth, s.planes.plan.Weld, 1e-6)
	sum := 0.0
	for i := range s.planes.plan.Sections {
		f, _ := s.planes.shown.weights(s.planes.plan.Sections[i].At(&s.wall.Profile, r.Scale, float64(r.Wall)), s.wall.Profile.Metal(r.Scale, float64(r.Wall)))
		sum += f
	}
	assert.InEpsilon(t, whole, sum, 1e-6, "sections add up to the whole")

	b.fill("plane.height", "a bit")
	assert.NotEmpty(t, b.field("plane.height").Fault())
	assert.InDelta(t, 0.1, s.planes.list[0].height, 1e-7, "what cannot be read moves nothing")
	b.fill("plane.height", "40 cm")
	b.fill("plane.tilt", "90")
	b.clock.pass(time.Second)
	require.Len(t, s.planes.plan.Sections, 2)
	left := s.planes.plan.Sections[0]
	assert.InEpsilon(t, s.planes.plan.Sections[1].Area, left.Area, 0.02, "an upright plane through the middle halves it")
	b.fill("plane.shift", "5 cm")
	b.tap("Drop this plane")
	assert.Empty(t, s.planes.list)
	require.Len(t, s.planes.plan.Sections, 1)
}

// Nobody has to ask for planes: they are proposed when the form is measured, and
// again for another height or wall, until somebody moves one.
func TestPlanesAreProposedForTheSizeUntilSomebodyMovesOne(t *testing.T) {
	b, s := openBottle(t)
	b.clock.pass(time.Second)
	require.Empty(t, s.planes.list, "a jar of 30 cm is poured whole")
	b.fill("form.height", "1.2 m")
	b.clock.pass(time.Second)
	many := len(s.planes.list)
	require.NotZero(t, many)
	assert.Equal(t, len(s.planes.plan.Sections), s.numbers.tried.piece.Sections)
	weld := s.numbers.tried.piece.Weld
	b.fill("form.height", "0.8 m")
	b.clock.pass(time.Second)
	assert.Less(t, len(s.planes.list), many)
	assert.Less(t, float64(s.numbers.tried.piece.Weld), float64(weld))

	b.fill("plane.height", "30 cm")
	b.clock.pass(time.Second)
	placed := len(s.planes.list)
	b.fill("form.height", "1.2 m")
	b.clock.pass(time.Second)
	assert.Len(t, s.planes.list, placed, "moved planes stay")
	assert.Greater(t, s.numbers.tried.piece.Sections, len(s.planes.plan.Sections), "and the estimate cuts on what is too large")
	foretold := headline(s.numbers.tried.estimate)
	b.tap("Use this scan")
	assert.Equal(t, foretold, b.price())
	k := b.quote().pieces()[0].Scan
	assert.False(t, k.Plan.Proposed)
	b.fill("form.height", "30 cm")
	e, ok := b.quote().sheet.Estimate()
	require.True(t, ok)
	assert.Equal(t, len(k.Plan.Sections), e.Pieces[0].Sections, "at every size")
}

func TestProposedPlanesFitCrucibleAndTank(t *testing.T) {
	b, s := openBottle(t)
	b.fill("form.height", "2 m")
	b.clock.pass(time.Second)
	b.tap("Drop all planes")
	b.tap("Add a plane")
	assert.Contains(t, b.said(), "and the shell tank takes", "two halves are too large")
	b.tap("Propose planes")
	require.NotEmpty(t, s.planes.list)
	assert.NotContains(t, b.said(), "and the shell tank takes")
	assert.Equal(t, len(s.planes.plan.Sections), s.numbers.tried.piece.Sections, "the estimate has the sections of the plan")

	b.tap("Use this scan")
	k := b.quote().pieces()[0].Scan
	assert.Len(t, k.Plan.Cuts, len(s.planes.list))
	b.tap("Open this scan again …")
	again := b.scan()
	assert.Equal(t, k.Stance, again.how, "it stands as it was answered")
	assert.Len(t, again.planes.list, len(k.Plan.Cuts), "and is cut as it was")
	b.clock.pass(time.Second)
	assert.Len(t, again.planes.plan.Sections, len(k.Plan.Sections))
	b.tap("Drop all planes")
	b.tap("") // the way back
	assert.Same(t, k, b.quote().pieces()[0].Scan, "going back changes nothing")
}

func TestTheFileItselfIsKeptWithTheQuoteByChoice(t *testing.T) {
	b, s := openBottle(t)
	b.clock.pass(time.Second)
	path := s.path
	was, err := os.ReadFile(path)
	require.NoError(t, err)
	b.field("scan.keep").Focus()
	b.typed(" ")
	require.Equal(t, kit.Yes, b.field("scan.keep").Text())
	b.tap("Use this scan")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "Its file is kept with the quote.")
	require.NoError(t, os.Remove(path))

	b.tap("Save its file as …")
	e, ok := b.focused().(*kit.Entry)
	require.True(t, ok)
	to := filepath.Join(t.TempDir(), "again.stl")
	e.SetText(to)
	b.press(fyne.KeyReturn)
	is, err := os.ReadFile(to)
	require.NoError(t, err)
	assert.Equal(t, was, is)

	b.tap("Open this scan again …")
	assert.Equal(t, "bottle.stl", b.scan().opened.Report.Name, "from what is kept: the file is gone")
	assert.NotEqual(t, path, b.scan().path)
	b.clock.pass(time.Second)
	b.field("scan.keep").Focus()
	b.typed(" ")
	require.Equal(t, kit.No, b.field("scan.keep").Text())
	b.tap("Use this scan")
	b.clock.pass(time.Second)
	assert.Contains(t, b.said(), "Its file is not where it was opened, and nothing here needs it.")
	kept, err := b.w.desk.KeptScanFiles(t.Context(), b.quote().sheet.Quote().ID)
	require.NoError(t, err)
	assert.Empty(t, kept)
}

func TestAFileThatIsNoScanIsToldAndAskedForAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "letter.txt")
	require.NoError(t, os.WriteFile(path, []byte("Dear sir"), 0o600))
	b := sit(t)
	b.menu("New quote")
	b.menu("Next stage")
	b.pick("form.known_by", "scan")
	b.answerPath(path)
	assert.Contains(t, b.said(), "Which scan?")
	assert.Equal(t, path, b.focused().(*kit.Entry).Text, "what was typed stays")
	b.focused().(*kit.Entry).SetText(filepath.Join(filepath.Dir(path), "none.stl"))
	b.press(fyne.KeyReturn)
	assert.Contains(t, b.said(), "Which scan?")
	b.tap("Cancel")
	assert.Equal(t, "form", b.quote().stage)
}

func TestReadingCanBeCalledOff(t *testing.T) {
	aside := &held{}
	path := bottle(t, "bottle.stl")
	b := sit(t, func(o *Options) { o.Aside = aside })
	b.menu("New quote")
	b.menu("Next stage")
	b.pick("form.known_by", "scan")
	b.answerPath(path)
	assert.Contains(t, b.said(), "Reading bottle.stl")
	b.tap("Cancel")
	aside.let()
	assert.NotContains(t, b.said(), "Reading bottle.stl")
	assert.Equal(t, "form", b.quote().stage)
}

func TestAScanThatIsStillMeasuredIsUsedWhenItIs(t *testing.T) {
	aside := &held{}
	path := bottle(t, "bottle.stl")
	b := sit(t, func(o *Options) { o.Aside = aside })
	b.menu("New quote")
	b.menu("Next stage")
	b.pick("form.known_by", "scan")
	b.answerPath(path)
	aside.let()
	b.tap("Use this scan")
	assert.Contains(t, b.said(), "The scan is used when it is measured.")
	b.clock.pass(time.Second)
	for range 6 {
		aside.let()
	}
	assert.NotNil(t, b.quote().pieces()[0].Scan)
	assert.NotContains(t, b.said(), "The scan is used when it is measured.")
}

func TestTheFormIsTurnedByKeysAndDraggedAndBroughtNearer(t *testing.T) {
	b, s := openBottle(t)
	b.win.Canvas().Focus(s.picture)
	b.press(fyne.KeyRight, fyne.KeyDown)
	assert.Equal(t, firstView.Yaw+10, s.picture.view.Yaw)
	assert.True(t, s.picture.coarse)
	b.clock.pass(time.Second)
	assert.False(t, s.picture.coarse, "at rest it is drawn finely")
	s.picture.Dragged(&fyne.DragEvent{Dragged: fyne.NewDelta(10, 5000)})
	assert.Equal(t, 90.0, s.picture.view.Pitch, "no farther than from above")
	b.typed("+")
	assert.InDelta(t, 1.25, s.picture.view.Zoom, 1e-9)
	s.picture.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, 10), PointEvent: fyne.PointEvent{Position: fyne.NewPos(1, 1)}})
	assert.Greater(t, s.picture.view.Zoom, 1.25)
	assert.NotZero(t, s.picture.view.Right, "towards the pointer")
	b.press(fyne.KeyHome)
	assert.Equal(t, firstView, s.picture.view)
}

func TestThePlaneIsSeenWhereItCuts(t *testing.T) {
	_, s := openBottle(t)
	view := mesh.View{Zoom: 1}
	before := s.paint(view, 300, 300)
	s.planes.change(func() { s.planes.add() })
	after := s.paint(view, 300, 300)
	e := eyeOf(s.box, view, 300, 300)
	x, y := e.at(mesh.Vec{0, -0.075, 0.15})
	assert.NotEqual(t, before.At(int(x), int(y)), after.At(int(x), int(y)))
	assert.Equal(t, before.At(int(x), int(y)-40), after.At(int(x), int(y)-40), "and nowhere else")
}

func TestTheEyeSeesAsThePictureIsDrawn(t *testing.T) {
	_, s := openBottle(t)
	for _, view := range []mesh.View{{Zoom: 1}, {Yaw: 30, Pitch: 20, Zoom: 1.5, Right: 0.1, Up: -0.05}} {
		img := s.standing.Viewer.Draw(view, 400, 300)
		e := eyeOf(s.box, view, 400, 300)
		low, high := img.Bounds().Max.Y, 0
		for y := range 300 {
			for x := range 400 {
				if img.RGBAAt(x, y).A > 127 {
					low, high = min(low, y), max(high, y)
				}
			}
		}
		top, bottom := math.Inf(1), math.Inf(-1)
		for _, p := range s.standing.Skin.Mesh.Points {
			_, y := e.at(p.Vec())
			top, bottom = min(top, y), max(bottom, y)
		}
		assert.InDelta(t, max(top, 0), float64(low), 1.5)
		assert.InDelta(t, min(bottom, 300), float64(high+1), 1.5)
	}
}

func TestWhereItCastsSolidIsMarked(t *testing.T) {
	b, s := openBottle(t)
	b.fill("form.wall", "30 mm") // the neck is 50 mm wide
	b.clock.pass(time.Second)
	b.pick("scan.marks", scanMarks[1])
	require.NotNil(t, s.standing.Viewer.Tints)
	assert.Contains(t, s.standing.Viewer.Tints, mesh.Marked)
	assert.Contains(t, s.standing.Viewer.Tints, mesh.Bronze)
	b.pick("scan.marks", scanMarks[0])
	assert.Nil(t, s.standing.Viewer.Tints)
}
