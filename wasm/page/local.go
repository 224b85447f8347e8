//go:build js && wasm

package page

import (
	"strconv"
	"syscall/js"

	"splittally/wasm/shelf"
)

// local is the browser's storage as the shelf wants it.
type local struct{ p *page }

// storage gives the browser's storage, or the tab's. Where it is refused the
// mere look at it throws, and of all ways to look only a call can be recovered
// from; where it is switched off there is null. Either way attempt gives why.
func storage(name string) js.Value {
	found := js.Global().Get("Reflect").Call("get", js.Global(), name)
	if !found.Truthy() {
		panic(js.Error{Value: js.Global().Get("Error").New("its storage is switched off")})
	}
	return found
}

func (l local) Get(key string) (text string, ok bool, err error) {
	err = l.p.attempt(func() {
		if v := storage("localStorage").Call("getItem", key); v.Type() == js.TypeString {
			text, ok = v.String(), true
		}
	})
	return text, ok, err
}

func (l local) Set(key, text string) error {
	err := l.p.attempt(func() { storage("localStorage").Call("setItem", key, text) })
	if refusal, ok := err.(js.Error); ok {
		switch refusal.Get("name").String() {
		case "QuotaExceededError", "NS_ERROR_DOM_QUOTA_REACHED":
			return shelf.ErrFull
		}
	}
	return err
}

func (l local) Remove(key string) error {
	return l.p.attempt(func() { storage("localStorage").Call("removeItem", key) })
}

func (l local) Keys() (keys []string, err error) {
	err = l.p.attempt(func() {
		all := js.Global().Get("Object").Call("keys", storage("localStorage"))
		for i := range all.Length() {
			keys = append(keys, all.Index(i).String())
		}
	})
	return keys, err
}

// clockMilli is the time in milliseconds since 1970.
func clockMilli() int64 { return int64(js.Global().Get("Date").Call("now").Float()) }

// newID gives an id that no tab has given.
func newID() string {
	numbers := js.Global().Get("Uint32Array").New(2)
	js.Global().Get("crypto").Call("getRandomValues", numbers)
	return strconv.FormatUint(uint64(numbers.Index(0).Float())<<32|uint64(numbers.Index(1).Float()), 36)
}
