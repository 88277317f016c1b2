package proposal

import "meltwright/internal/quote"

// Slim gives a picture as it is worth keeping, as the function of that name does.
func (Maker) Slim(p quote.Picture) (quote.Picture, error) { return Slim(p) }
