package sqlite

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"meltwright/internal/quote"
)

func pictured(t testing.TB, s *Store, data string) quote.PictureID {
	t.Helper()
	id, err := s.KeepPicture(t.Context(), []byte(data))
	require.NoError(t, err)
	return id
}

func TestAPictureIsKeptOnceUnderItsOwnChecksum(t *testing.T) {
	s := newStore(t)
	id := pictured(t, s, "abc")
	// FIPS 180-2, appendix B.1: the SHA-256 of "abc".
	assert.Equal(t, quote.PictureID("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"), id)
	assert.Equal(t, id, pictured(t, s, "abc"))
	data, err := s.Picture(t.Context(), id)
	require.NoError(t, err)
	assert.Equal(t, "abc", string(data))
	assert.Equal(t, 1, sound(t, s).Pictures)
	_, err = s.Picture(t.Context(), "none")
	says(t, err, quote.ErrNotFound)
}

func TestPicturesGoWhenNothingShowsThemAnyMore(t *testing.T) {
	s := newStore(t)
	shown, logo := pictured(t, s, "clay"), pictured(t, s, "logo")
	pictured(t, s, "taken away again")
	require.NoError(t, s.SetMark(t.Context(), quote.Logo, logo))
	q, err := s.Save(t.Context(), quote.Quote{Commission: harbour(), Pictures: []quote.Shown{{Picture: shown, Caption: "In clay"}}}, "", march)
	require.NoError(t, err)
	assert.Equal(t, 3, sound(t, s).Pictures)
	_, err = s.Empty(t.Context(), march)
	require.NoError(t, err)
	assert.Equal(t, 2, sound(t, s).Pictures)
	kept, err := s.Quote(t.Context(), q.ID)
	require.NoError(t, err)
	assert.Equal(t, q, kept)
	require.NoError(t, s.Delete(t.Context(), q.ID, march))
	_, err = s.Empty(t.Context(), at(1))
	require.NoError(t, err)
	assert.Equal(t, 1, sound(t, s).Pictures, "the logo alone")
	require.NoError(t, s.SetMark(t.Context(), quote.Logo, ""))
	marks, err := s.Marks(t.Context())
	require.NoError(t, err)
	assert.Empty(t, marks)
}

func TestAPictureThatIsNotKeptCannotBeShown(t *testing.T) {
	s := newStore(t)
	_, err := s.Save(t.Context(), quote.Quote{Commission: harbour(), Pictures: []quote.Shown{{Picture: "none", Caption: "In clay"}}}, "", march)
	says(t, err, quote.ErrNotFound, "In clay")
	says(t, s.SetMark(t.Context(), quote.Logo, "none"), quote.ErrNotFound)
	says(t, s.SetMark(t.Context(), "stamp", pictured(t, s, "x")), nil, "stamp")
}

func TestAPictureThatAByteOfWasLostIsTold(t *testing.T) {
	path := newFile(t)
	s := opened(t, path)
	id := pictured(t, s, "clay")
	require.NoError(t, s.SetMark(t.Context(), quote.Logo, id))
	tell(t, path, `DROP TRIGGER pictures_never_change`, `UPDATE pictures SET data = x'00'`)
	_, err := s.Picture(t.Context(), id)
	says(t, err, quote.ErrDamaged, "checksum")
	r, err := s.Check(t.Context())
	require.NoError(t, err)
	require.Len(t, r.Wrong, 1)
	assert.Contains(t, r.Wrong.Error(), "Picture "+string(id[:8]))
}
