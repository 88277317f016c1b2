package quote

// PictureID names a picture in the store: the SHA-256 of its file, in hexadecimal.
type PictureID string

// Shown is a picture among those of a quote. Its file lies in the store by itself.
type Shown struct {
	Picture PictureID `json:"picture"`
	Name    string    `json:"name,omitempty"` // Cover, or nothing
	Caption string    `json:"caption,omitempty"`
}

// Marks name the pictures that a shop has on all its papers.
func Marks() []string { return []string{Logo} }
