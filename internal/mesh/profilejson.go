package mesh

import (
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"errors"
	"math"
)

// packedProfile is a profile as it is stored: its curves in single precision,
// little end first, in base64: seven kilobytes.
type packedProfile struct {
	Volume float64 `json:"volume_m3"`
	Area   float64 `json:"area_m2"`
	Reach  float64 `json:"reach_m"`
	Error  float64 `json:"error"`
	Within string  `json:"within"`
	Moment string  `json:"moment"`
	Solid  string  `json:"solid"`
}

// MarshalJSON keeps a profile short.
func (p Profile) MarshalJSON() ([]byte, error) {
	moment := make([]float32, 0, 3*knots)
	for k := range p.moment {
		moment = append(moment, p.moment[k][:]...)
	}
	return json.Marshal(packedProfile{p.Volume, p.Area, p.Reach, p.Error, pack(p.within[:]), pack(moment), pack(p.solid[:])})
}

// UnmarshalJSON reads what MarshalJSON wrote, and refuses curves that are cut
// short or hold what is no number.
func (p *Profile) UnmarshalJSON(data []byte) error {
	var s packedProfile
	if err := json.Unmarshal(data, &s); err != nil {
		return err
	}
	moment := make([]float32, 3*knots)
	read := Profile{Volume: s.Volume, Area: s.Area, Reach: s.Reach, Error: s.Error}
	err := errors.Join(unpack(s.Within, read.within[:]), unpack(s.Moment, moment), unpack(s.Solid, read.solid[:]))
	if err != nil {
		return errProfile
	}
	for k := range read.moment {
		copy(read.moment[k][:], moment[k*knots:])
	}
	*p = read
	return nil
}

var errProfile = errors.New("the stored wall profile is damaged; measure the scan again")

// pack writes numbers as text.
func pack(values []float32) string {
	raw := make([]byte, 0, 4*len(values))
	for _, v := range values {
		raw = binary.LittleEndian.AppendUint32(raw, math.Float32bits(v))
	}
	return base64.StdEncoding.EncodeToString(raw)
}

// unpack reads exactly as many numbers as there is room for.
func unpack(text string, into []float32) error {
	raw, err := base64.StdEncoding.DecodeString(text)
	if err != nil || len(raw) != 4*len(into) {
		return errProfile
	}
	for i := range into {
		v := math.Float32frombits(binary.LittleEndian.Uint32(raw[4*i:]))
		if math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
			return errProfile
		}
		into[i] = v
	}
	return nil
}
