package main

// part is one thing that has to be on the machine, and the package that
// brings it under each package manager; a name may be several, with spaces.
type part struct {
	what  string // in words
	probe probe  // how to see that it is there; nil: ask dpkg for the apt package

	apt, dnf, pacman, zypper string
}

// compiler is what cgo needs on every system.
var compiler = part{
	"a C compiler with its headers", compiles,
	"gcc libc6-dev", "gcc glibc-devel", "gcc", "gcc glibc-devel",
}

// headers is what the window is built from where it draws on X: what its
// source includes and links, and no more.
var headers = []part{
	{"pkg-config", program("pkg-config"), "pkg-config", "pkgconf-pkg-config", "pkgconf", "pkg-config"},
	{"the OpenGL headers", module("gl"), "libgl1-mesa-dev", "mesa-libGL-devel", "libglvnd", "Mesa-libGL-devel"},
	{"the X headers", module("x11"), "libx11-dev", "libX11-devel", "libx11", "libX11-devel"},
	{"the X cursor headers", module("xcursor"), "libxcursor-dev", "libXcursor-devel", "libxcursor", "libXcursor-devel"},
	{"the X screen size headers", module("xrandr"), "libxrandr-dev", "libXrandr-devel", "libxrandr", "libXrandr-devel"},
	{"the X several-screens headers", module("xinerama"), "libxinerama-dev", "libXinerama-devel", "libxinerama", "libXinerama-devel"},
	{"the X input headers", module("xi"), "libxi-dev", "libXi-devel", "libxi", "libXi-devel"},
	{"the X video mode headers", module("xxf86vm"), "libxxf86vm-dev", "libXxf86vm-devel", "libxxf86vm", "libXxf86vm-devel"},
}

// references is what the tests hold the work against, and how they reach a
// real window. The tests run fully on Debian and its kin, so apt alone.
var references = []part{
	{what: "a display without a screen", apt: "xvfb"},
	{what: "its keys", apt: "xauth"},
	{what: "OpenGL without a graphics card", apt: "libgl1-mesa-dri"},
	{what: "a hand on keyboard and mouse", apt: "xdotool"},
	{what: "pictures of the window", apt: "imagemagick"},
	{what: "a judge of PDF structure", apt: "qpdf"},
	{what: "a reader of PDF text, fonts and pages", apt: "poppler-utils"},
	{what: "a second reader of PDF", apt: "mupdf-tools"},
	{what: "a judge of PDF for archives", apt: "libpdfbox2-java"},
	{what: "what that judge reads kinds of data with", apt: "libactivation-java"},
	{what: "and metadata with", apt: "libjaxb-api-java"},
	{what: "unit conversion", apt: "units"},
	{what: "distributions", apt: "python3-scipy"},
	{what: "calendar files", apt: "python3-icalendar"},
	{what: "area and volume of meshes", apt: "python3-vtk9"},
	{what: "a judge of STL", apt: "admesh"},
	{what: "a second reader of STL", apt: "python3-stl"},
	{what: "exact solids", apt: "openscad"},
	{what: "one mesh in every format", apt: "assimp-utils"},
	{what: "broken meshes", apt: "assimp-testmodels"},
	{what: "meshes of real forms", apt: "libcgal-demo"},
	{what: "a spreadsheet that computes", apt: "libreoffice-calc"},
	{what: "what the spreadsheet runs on", apt: "default-jre-headless"},
}

// windowParts is what building the window needs on a system, as Go names it.
func windowParts(system string) []part {
	if system == "darwin" || system == "windows" {
		return []part{compiler}
	}
	return append([]part{compiler}, headers...)
}
