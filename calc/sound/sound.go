// Package sound turns the bytes of a recording into samples, as they come: WAV
// and MP3. It is told by its content, never by its name.
//
//	bytes in chunks --Reader--> samples in a Sink --> package onset
//
// MP3 is decoded by github.com/hajimehoshi/go-mp3, frame by frame and guarded.
// What a browser must decode itself, such as MP3 at 8 kHz or AAC, ends with the
// refusal Elsewhere; its samples then go to a fresh Sink, as in rare files the
// refusal comes after some samples (Found.Read tells).
package sound

// Sink takes the samples of a recording in their order.
type Sink interface {
	// Begin comes before the first samples, and again where the rate or the
	// number of channels changes. channels is 1 or 2.
	Begin(rate, channels int)
	// Take gets samples from −1 to 1, of the left and the right channel; right is
	// nil if there is one. They are the sink's only during the call.
	Take(left, right []float32)
	// Gap says that some seconds of the recording are lost here, or may be: an
	// interval across it is not to be trusted. Nothing stands for them in Take.
	// They are 0 where one recording ends and another begins.
	Gap(seconds float64)
}

// Options say what is known of a file beforehand.
type Options struct {
	Bytes int64 // its size; 0 if not known
}

// Refusal says why there are no samples, or no more.
type Refusal string

// The refusals.
const (
	Elsewhere  Refusal = "elsewhere" // it is or may be a recording that only the browser can decode
	NotASound  Refusal = "not-a-sound"
	Empty      Refusal = "empty"
	Unread     Refusal = "unread"       // it is not empty, but no byte of it came
	Damaged    Refusal = "damaged"      // it begins as a recording, but nothing of it can be decoded
	Unknown    Refusal = "unknown"      // a form of WAV that nobody decodes
	TooLong    Refusal = "too-long"     // more than an hour, gaps included; the first hour was read
	OutOfOrder Refusal = "out-of-order" // the decoder broke; what came before stands
)

// Longest is how much of a recording is read, in seconds: Found.Read and
// Found.Gaps together are no more.
const Longest = 3600

// Found is what a recording came to.
type Found struct {
	Format   string   // in words, such as "MP3, 128 kbit/s, joint stereo"
	Rate     int      // samples per second, of the first part
	Channels int      // that the sink got, of the first part
	Read     float64  // seconds that the sink got, with silence in the place of what is damaged
	Promised float64  // seconds that the file says it has or must have by its size; 0 if it does not say
	Lost     float64  // seconds of Read that are silence in the place of what could not be decoded
	Gaps     float64  // seconds that are lost between frames, as Gap told; no part of Read
	Why      Refusal  // "" if all was read
	Says     []string // what is wrong or odd about it, each a sentence; if Why is set, the first tells of that
}
