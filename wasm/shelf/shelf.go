// Package shelf keeps cases in the browser's storage: several of them, each
// with the history of its steps, safe from other tabs and from storage that is
// full, refused or damaged. It knows no browser; wasm/page gives it a Storage.
package shelf

// Storage is a store of texts by key, such as localStorage.
type Storage interface {
	Get(key string) (text string, ok bool, err error)
	Set(key, text string) error
	Remove(key string) error
	Keys() ([]string, error)
}
