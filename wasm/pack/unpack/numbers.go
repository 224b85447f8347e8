package unpack

// Numbers in Text and Module are LEB128: WebAssembly Core Specification, 5.2.2.

func putByte(b uint32) {
	Module[to] = byte(b)
	to++
}

func copyBytes(n uint32) {
	for ; n > 0; n-- {
		putByte(uint32(Text[from]))
		from++
	}
}

// copyNumber copies one of either sign and returns it as one without.
func copyNumber() uint32 {
	v, shift := uint32(0), uint32(0)
	for {
		b := uint32(Text[from])
		Module[to] = byte(b)
		from++
		to++
		v |= (b & 127) << (shift & 31)
		shift += 7
		if b < 128 {
			return v
		}
	}
}

func number() uint32 {
	v, shift := uint32(0), uint32(0)
	for {
		b := uint32(Text[from])
		from++
		v |= (b & 127) << (shift & 31)
		shift += 7
		if b < 128 {
			return v
		}
	}
}

// step reads a number with a sign, of 20 bits or fewer.
func step() uint32 {
	was := from
	v := number()
	unused := (32 - 7*(from-was)) & 31
	return uint32(int32(v<<unused) >> unused)
}

func put(v uint32) {
	for ; v > 127; v >>= 7 {
		putByte(v&127 | 128)
	}
	putByte(v)
}

// putSigned writes a number that is not below 0.
func putSigned(v uint32) {
	for ; v > 63; v >>= 7 {
		putByte(v&127 | 128)
	}
	putByte(v)
}

// steps restores numbers that stand as what each is above the last and 1.
func steps(count uint32) {
	v := uint32(0xffffffff)
	for ; count > 0 && from < done; count-- {
		v += step() + 1
		put(v)
	}
}
