package sound

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
)

// taps makes a recording to try: knocks every 0.4 s over soft noise and a hum, in
// each channel its own, so that encoders use all they have.
func taps(rate, channels int, seconds float64, seed uint64) []float64 {
	random := rand.New(rand.NewPCG(seed, 1))
	samples := make([]float64, int(seconds*float64(rate))*channels)
	for i := range samples {
		t, c := float64(i/channels)/float64(rate), float64(i%channels)
		since := math.Mod(t+0.13*c, 0.4)
		knock := 0.8 * math.Exp(-since*60) * math.Sin(2*math.Pi*(900+300*c)*since)
		hum := 0.1 * math.Sin(2*math.Pi*60*t)
		samples[i] = 0.7*knock + hum + (0.02+0.03*c)*random.NormFloat64()
	}
	return samples
}

// pcm16 writes samples in 16 bits, the lowest byte first.
func pcm16(samples []float64) []byte {
	out := make([]byte, 0, 2*len(samples))
	for _, v := range samples {
		out = binary.LittleEndian.AppendUint16(out, uint16(int16(math.Round(32767*max(-1, min(1, v))))))
	}
	return out
}

// chunk is a chunk of a RIFF file, padded to an even length.
func chunk(order binary.AppendByteOrder, name string, body []byte) []byte {
	out := append([]byte(name), order.AppendUint32(nil, uint32(len(body)))...)
	out = append(out, body...)
	if len(body)%2 == 1 {
		out = append(out, 0)
	}
	return out
}

// format is the body of a chunk "fmt ".
func format(order binary.AppendByteOrder, tag, channels, rate, bits int) []byte {
	block := channels * ((bits + 7) / 8)
	out := order.AppendUint16(nil, uint16(tag))
	out = order.AppendUint16(out, uint16(channels))
	out = order.AppendUint32(out, uint32(rate))
	out = order.AppendUint32(out, uint32(rate*block))
	out = order.AppendUint16(out, uint16(block))
	return order.AppendUint16(out, uint16(bits))
}

// riff joins chunks to a WAV file.
func riff(chunks ...[]byte) []byte { return wave("RIFF", binary.LittleEndian, chunks...) }

func wave(name string, order binary.AppendByteOrder, chunks ...[]byte) []byte {
	body := []byte("WAVE")
	for _, c := range chunks {
		body = append(body, c...)
	}
	return chunk(order, name, body)
}

// wav16 is a plain WAV file.
func wav16(samples []float64, rate, channels int) []byte {
	le := binary.LittleEndian
	return riff(chunk(le, "fmt ", format(le, 1, channels, rate, 16)), chunk(le, "data", pcm16(samples)))
}
