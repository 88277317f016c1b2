package parcel

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"hash/crc32"
	"io"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/fault"
)

// entry is one file of an archive.
type entry struct {
	name   string
	data   []byte
	method uint16
}

func entriesOf(t testing.TB, data []byte) []entry {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	var out []entry
	for _, f := range z.File {
		r, err := f.Open()
		require.NoError(t, err)
		text, err := io.ReadAll(r)
		require.NoError(t, err)
		out = append(out, entry{f.Name, text, f.Method})
	}
	return out
}

// forged is an archive that somebody made to look like a parcel.
type forged []entry

// sound is a parcel as it should be, ready to be tampered with.
func sound(t testing.TB) forged { return entriesOf(t, packed(t, ferryman(t), everything)) }

func (f forged) at(name string) int {
	return slices.IndexFunc(f, func(e entry) bool { return e.name == name })
}

// with puts other data into an entry, and its size and sum into the manifest.
func (f forged) with(t testing.TB, name string, data []byte) forged {
	f[f.at(name)].data = data
	sum := sha256.Sum256(data)
	return f.listed(t, func(m *manifest) {
		for i := range m.Parts {
			if m.Parts[i].Entry == name {
				m.Parts[i].Size, m.Parts[i].SHA256 = int64(len(data)), hex.EncodeToString(sum[:])
			}
		}
	})
}

// listed changes the manifest.
func (f forged) listed(t testing.TB, change func(*manifest)) forged {
	at := f.at(manifestEntry)
	var m manifest
	require.NoError(t, json.Unmarshal(f[at].data, &m))
	change(&m)
	data, err := json.Marshal(m)
	require.NoError(t, err)
	f[at].data = data
	return f
}

func (f forged) bytes(t testing.TB) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, e := range f {
		w, err := z.CreateHeader(&zip.FileHeader{Name: e.name, Method: e.method})
		require.NoError(t, err)
		_, err = w.Write(e.data)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

// raw writes an archive whose heads say whatever they are told to.
func (f forged) raw(t testing.TB, lie func(h *zip.FileHeader)) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, e := range f {
		h := &zip.FileHeader{Name: e.name, Method: zip.Store, CRC32: crc32.ChecksumIEEE(e.data), CompressedSize64: uint64(len(e.data)), UncompressedSize64: uint64(len(e.data))}
		lie(h)
		w, err := z.CreateRaw(h)
		require.NoError(t, err)
		_, err = w.Write(e.data)
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return b.Bytes()
}

func deflated(t testing.TB, data []byte) []byte {
	var b bytes.Buffer
	w, err := flate.NewWriter(&b, 9)
	require.NoError(t, err)
	_, err = w.Write(data)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return b.Bytes()
}

// refusal reads what has to be refused, and gives the sentence.
func refusal(t testing.TB, data []byte) string {
	t.Helper()
	c, err := Read(bytes.NewReader(data), int64(len(data)))
	require.Error(t, err)
	assert.Equal(t, Contents{}, c, "nothing of it is given")
	var f fault.Fault
	require.ErrorAs(t, err, &f)
	assert.NotEmpty(t, f.Field)
	assert.NotEmpty(t, f.Problem)
	assert.NotEmpty(t, f.Remedy)
	return f.Error()
}
