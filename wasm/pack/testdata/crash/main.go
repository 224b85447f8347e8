// Command crash recovers from one mistake and dies of the next.
package main

import "fmt"

type shelf struct{ items []int }

func (s shelf) item(i int) int { return s.items[i] }

func main() {
	once(2)
	fmt.Println(shelf{}.item(3))
}

func once(i int) {
	defer func() { fmt.Println("recovered:", recover()) }()
	fmt.Println(shelf{}.item(i))
}
