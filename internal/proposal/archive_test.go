package proposal

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// preflight is what Apache PDFBox's judge of PDF/A-1b (ISO 19005-1) says of every
// document in a folder.
func preflight(t *testing.T, folder string) string {
	java := needTool(t, "java")
	needTool(t, "/usr/share/java/preflight.jar")
	var jars []string
	for _, name := range []string{"preflight", "pdfbox2", "fontbox2", "xmpbox", "commons-logging", "commons-io", "javax.activation", "jaxb-api"} {
		jars = append(jars, "/usr/share/java/"+name+".jar")
	}
	return told(t, java, "-cp", strings.Join(jars, ":"), "org.apache.pdfbox.preflight.Validator_A1b", "batch", folder)
}

func TestEveryPaperIsOneThatArchivesTake(t *testing.T) {
	p, n := illustrated(t), paperOf(t, nasty())
	folder := t.TempDir()
	papers := map[string][]byte{
		"illustrated": illustratedPDF(t, inLanguage(p, "fr")),
		"nasty":       proposalOf(t, nasty()),
		"inch-pound":  proposalOf(t, inchPound()),
		"cost sheet":  costSheetOf(t, waterfront()),
		"order list":  made(t, func(b *bytes.Buffer) error { return Maker{}.OrderList(b, n) }),
		"traveller":   made(t, func(b *bytes.Buffer) error { return Maker{}.Traveller(b, n) }),
	}
	for name, pdf := range papers {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name+".pdf"), pdf, 0o600))
	}
	out := preflight(t, folder)
	for name := range papers {
		assert.Contains(t, out, name+".pdf is a valid PDF/A-1b file")
	}
}

func TestAPaperSaysItsLanguageAndHasANameMadeOfWhatIsInIt(t *testing.T) {
	french := illustratedPDF(t, inLanguage(illustrated(t), "fr"))
	assert.Contains(t, string(french), "/Lang (fr)")
	assert.Contains(t, string(costSheetOf(t, waterfront())), "/Lang (en)")
	name := regexp.MustCompile(`/ID \[<([0-9a-f]{32})> <([0-9a-f]{32})>\]`)
	one, two := name.FindSubmatch(french), name.FindSubmatch(proposalOf(t, waterfront()))
	require.NotNil(t, one)
	require.NotNil(t, two)
	assert.NotEqual(t, one[1], two[1])
	assert.Equal(t, one[1], name.FindSubmatch(illustratedPDF(t, inLanguage(illustrated(t), "fr")))[1])
}

func TestAStreamThatLooksLikeTheEndOfItsObjectIsKeptWhole(t *testing.T) {
	trap := []byte("x\nendobj\n2 0 obj\n")
	one := append([]byte("1 0 obj\n"), stream("", trap)...)
	one = append(one, "\nendobj\n"...)
	raw := append([]byte("%PDF-1.3\n"), one...)
	at := len(raw)
	raw = append(raw, "2 0 obj\n<<>>\nendobj\n"...)
	table := len(raw)
	raw = append(raw, "xref\n0 3\n0000000000 65535 f \n0000000009 00000 n \n"...)
	digits := strconv.Itoa(at)
	raw = append(raw, strings.Repeat("0", 10-len(digits))+digits+" 00000 n \ntrailer\n<<\n/Size 3\n/Root 2 0 R\n/Info 1 0 R\n>>\nstartxref\n"+strconv.Itoa(table)+"\n%%EOF\n"...)
	a, err := takeApart(raw)
	require.NoError(t, err)
	assert.Equal(t, string(one), string(a.objects[1]))
	assert.Equal(t, [2]int{2, 1}, [2]int{a.root, a.info})
	for cut := range len(raw) {
		_, _ = takeApart(raw[:cut]) // whatever it says, it does not fall over
	}
	_, err = takeApart([]byte("no document"))
	assert.ErrorIs(t, err, errLibrary)
}

// ImageMagick reads colours by the profile: those of sRGB stay as they are.
func TestTheProfileOfColoursIsThatOfScreens(t *testing.T) {
	profile := screenColours()
	assert.Equal(t, len(profile), int(binary.BigEndian.Uint32(profile)))
	file := kept(t, "screen.icc", profile)
	out := kept(t, "out.png", nil)
	told(t, needTool(t, "convert"), "-size", "4x1", "gradient:rgb(10,120,200)-rgb(240,30,90)", "-profile", file, "-depth", "8", out)
	data, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.Contains(t, string(data), "iCCP")
	told(t, needTool(t, "convert"), out, "-profile", file, "-depth", "8", out)
	assert.InDelta(t, 0.0331, float64(binary.BigEndian.Uint16(screenCurve()[12+2*205:]))/65535, 0.0005, "0.2 of a channel is 0.0331 of its light: IEC 61966-2-1")
}

func TestParticularsAreNeverEmpty(t *testing.T) {
	d := document{title: " \U0001F525 ", author: ""}
	title, author := d.particulars()
	assert.Equal(t, [2]string{creator(), creator()}, [2]string{title, author})
	assert.Contains(t, string((&document{title: "Fish & <chips>"}).metadata()), "Fish &amp; &lt;chips&gt;")
	assert.Equal(t, "en", (&document{}).tongue())
}
