package arch

import "slices"

// room is one package of the module.
type room struct {
	path  string // below the module's path
	holds string // what it is about
	// pure rooms give the same answer to the same question: no clock, disk,
	// network, database or unseeded chance is in them.
	pure  bool
	may   []string // the rooms it may import
	tests []string // the rooms that its tests may import besides
}

// Rooms that many may import, by how far the work has come.
var (
	values   = []string{"internal/fault", "internal/quantity", "internal/money", "internal/field"}
	measured = with(values, "internal/mesh", "internal/form")
	priced   = with(measured, "internal/shop", "internal/estimate")
	judged   = with(priced, "internal/lead", "internal/risk", "internal/options")
	quoted   = with(judged, "internal/quote")
	worked   = with(quoted, "internal/parcel", "internal/drawing", "internal/desk")
	stored   = with(worked, "internal/sqlite", "internal/proposal", "internal/buildinfo", "assets", "templates")
	shown    = with(stored, "internal/ui", "internal/ui/kit", "internal/ui/look", "internal/ui/tongue")
)

// rooms is the plan, from the bottom up: a room comes after all that it may import.
var rooms = []room{
	{path: "assets", holds: "fonts, icons and drawings of ours, embedded"},
	{path: "templates", holds: "the wording of proposals, embedded"},
	{path: "internal/buildinfo", holds: "which program this is, as the packager is told"},

	{path: "internal/reference", holds: "programs and files from outside that tests hold the work against; for tests alone"},
	{
		path: "internal/fault", holds: "what went wrong, in which field, and what to do about it",
		pure: true,
	},
	{
		path: "internal/quantity", holds: "length, area, volume, mass, density, time, temperature: types, parsing, printing",
		pure: true, may: list("internal/fault"),
	},
	{
		path: "internal/money", holds: "exact amounts, currencies, shares, rounding, splitting",
		pure: true, may: list("internal/fault", "internal/quantity"), // reads numbers as quantity does
	},
	{
		path: "internal/field", holds: "what a person is asked: an input's name, kind, limits and origin",
		pure: true, may: list("internal/fault", "internal/quantity", "internal/money"),
	},
	{
		path: "internal/mesh", holds: "scans: reading, area, volume, soundness, wall metal, cuts, outline, picture",
		may: list("internal/fault", "internal/quantity"), // not pure: it opens scans
	},
	{
		path: "internal/form", holds: "how big a piece is, however it is known",
		pure: true, may: with(values, "internal/mesh"),
	},
	{
		path: "internal/shop", holds: "the shop book: rates, materials, alloys, capacities; one dated value",
		pure: true, may: measured,
	},
	{
		path: "internal/estimate", holds: "one file a stage, in the order of the work; lines that show their working; the price",
		pure: true, may: with(measured, "internal/shop"),
	},
	{
		path: "internal/lead", holds: "weeks",
		pure: true, may: priced,
	},
	{
		path: "internal/risk", holds: "ranges and recasts",
		pure: true, may: priced, tests: list("internal/desk"), // the demo is measured
	},
	{
		path: "internal/options", holds: "scales and budgets",
		pure: true, may: priced,
	},
	{
		path: "internal/quote", holds: "quote, client, revision, status; the store it needs",
		pure: true, may: judged, tests: list("internal/sqlite"),
	},
	{
		path: "internal/parcel", holds: "one quote with its scan and pictures as one file, to send and to open elsewhere",
		pure: true, may: quoted,
	},
	{
		path: "internal/drawing", holds: "scenes of paths and text, drawn alike on the window and in the PDF",
		pure: true, may: list("internal/quantity", "internal/money", "assets"),
	},

	{
		path: "internal/sqlite", holds: "the store, in SQLite",
		may: with(quoted, "internal/buildinfo"),
	},
	{
		path: "internal/proposal", holds: "a quote as a document, and as a PDF",
		may: with(quoted, "internal/drawing", "internal/buildinfo", "assets", "templates"),
	},
	{
		path: "internal/desk", holds: "what a person does, without a window: change, recompute, undo, save, issue, export",
		may:   with(quoted, "internal/parcel", "internal/drawing", "internal/buildinfo"),
		tests: list("internal/sqlite", "internal/proposal"), // the program hands these in
	},

	{
		path: "internal/ui/tongue", holds: "the desktop's language, put right before the toolkit reads it",
	},
	{
		path: "internal/ui/look", holds: "colours and sizes",
		may: list("assets"),
	},
	{
		path: "internal/ui/kit", holds: "our widgets",
		may: with(quoted, "internal/drawing", "internal/ui/look", "assets"),
	},
	{
		path: "internal/ui", holds: "one file a screen",
		may:   with(worked, "internal/ui/kit", "internal/ui/look", "internal/buildinfo", "assets"),
		tests: list("internal/sqlite", "internal/proposal"),
	},

	{
		path: "cmd/meltwright", holds: "the window: flags, open the store, build the screens, run",
		may: shown,
	},
	{
		path: "cmd/meltwright-cli", holds: "the same work without a window and without cgo",
		may: stored,
	},
	{path: "cmd/task", holds: "set-up, start, test and bench on a fresh machine"},

	{path: "internal/arch", holds: "this plan, and the tests that hold the code to it"},
}

// library is a library from outside and the rooms that may use it. Of two that
// fit an import, the longer path is meant.
type library struct {
	path string
	used []string
}

// libraries are all that the program is made of besides Go's own.
var libraries = []library{
	{"github.com/shopspring/decimal", list("internal/money")},
	{"github.com/bojanz/currency", list("internal/money")},
	{"gonum.org/v1/gonum", list("internal/risk")},
	{"modernc.org/sqlite", list("internal/sqlite")},
	{"github.com/jung-kurt/gofpdf", list("internal/proposal")},
	{"github.com/xuri/excelize/v2", list("internal/proposal")},
	{"golang.org/x/image", list("internal/drawing", "internal/proposal", "internal/ui", "internal/ui/kit")},
	{"github.com/srwiley/rasterx", list("internal/drawing", "internal/ui/kit")},
	{"fyne.io/fyne/v2", list("internal/ui/look", "internal/ui/kit", "internal/ui", "cmd/meltwright")},
	{"fyne.io/fyne/v2/app", list("cmd/meltwright")}, // brings the real window, and cgo with it
}

// testLibraries may be used by every room's tests, and by nothing else.
var testLibraries = list(
	"github.com/stretchr/testify",
	"github.com/rogpeppe/go-internal",
	"pgregory.net/rapid",
)

// testRooms may be imported by every room's tests, and by nothing else.
var testRooms = list("internal/reference")

// topLevel is what the repository's first level holds besides dotfiles.
var topLevel = list("cmd", "internal", "assets", "templates", "testdata",
	"go.mod", "go.sum", "FyneApp.toml", "README.md", "DEVELOPERS.md")

func list(names ...string) []string { return names }

// with is some rooms and some more.
func with(some []string, more ...string) []string { return append(slices.Clone(some), more...) }
