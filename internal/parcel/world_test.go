package parcel

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/reference"
)

// needTool gives the path of a reference program or file.
var needTool = reference.Tool

// reader opens a parcel with Python's own zipfile, json and hashlib.
const reader = `
import sys, json, hashlib, zipfile
z = zipfile.ZipFile(sys.argv[1])
assert z.testzip() is None
print(z.infolist()[0].filename, z.read("meltwright").decode().strip())
m = json.loads(z.read("manifest.json"))
for p in m["parts"]:
    data = z.read(p["entry"])
    assert len(data) == p["size"] and hashlib.sha256(data).hexdigest() == p["sha256"], p
    print(p["kind"], p.get("name", p["entry"]), json.loads(data).get("title", "") if p["kind"] == "commission" else "")
`

// maker makes a parcel with them.
const maker = `
import sys, json, hashlib, zipfile
c = json.dumps({"title": "Élan", "pieces": [{"name": "Bust", "inputs": {"form.wall": "5 mm"}}]}).encode()
part = {"kind": "commission", "entry": "commission.json", "size": len(c), "sha256": hashlib.sha256(c).hexdigest()}
with zipfile.ZipFile(sys.argv[1], "w", zipfile.ZIP_DEFLATED) as z:
    z.writestr("meltwright", "parcel 1\n", zipfile.ZIP_STORED)
    z.writestr("commission.json", c)
    z.writestr("manifest.json", json.dumps({"parts": [part]}))
`

func TestPythonOpensAParcelAndFindsItsSums(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ferryman.meltparcel")
	require.NoError(t, os.WriteFile(path, packed(t, ferryman(t), everything), 0o600))
	out, err := exec.Command(needTool(t, "python3"), "-c", "import sys; sys.stdout.reconfigure(encoding='utf-8')\n"+reader, path).CombinedOutput()
	require.NoError(t, err, string(out))
	assert.Equal(t, []string{
		"meltwright parcel 1", "commission commission.json The Ferryman", "words words.json", "book book.json",
		"picture front view.png", "picture Ébauche.JPG", "scan ferryman.stl",
	}, lines(string(out)))
}

func lines(text string) (out []string) {
	for _, l := range strings.Split(strings.TrimSpace(text), "\n") {
		out = append(out, strings.TrimSpace(l))
	}
	return out
}

func TestAParcelThatPythonMadeIsRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "elan.meltparcel")
	out, err := exec.Command(needTool(t, "python3"), "-c", maker, path).CombinedOutput()
	require.NoError(t, err, string(out))
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	c, err := Read(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	assert.Equal(t, "Élan", c.Commission.Title)
	assert.Equal(t, "5 mm", c.Commission.Pieces[0].Inputs["form.wall"])
}
