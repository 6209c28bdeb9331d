package sim

// flume is where streams are cut and joined on their way through a line, one lot of water at a time: every slice
// in it is used again for the next cell, or for the next lot.
type flume struct {
	on, spare   stream    // what goes on from a cell, and room for what goes on from the next
	ice, melted stream    // a cell's bed
	stay, late  stream    // what stays of a stream, and of what melted
	rest        stream    // of a stream whose front was taken apart
	head, blend [1]parcel // a lot that comes in, and one that is blended of several
	layers      layers    // a cell's water
}

// newFlume makes room for cells with so many water shells: a stream that comes in, what stood in the cell, and
// what was on its way in it.
func newFlume(shells int) *flume {
	room := func() stream { return make(stream, 0, parcelLimit+2*shells+4) }
	l := layers{mass: make([]float64, 0, shells+2), u: make([]float64, 0, shells+2)}
	return &flume{on: room(), spare: room(), ice: room(), melted: room(), stay: room(), late: room(), rest: room(), layers: l}
}

// lot is a stream of one parcel that comes in.
func (f *flume) lot(p parcel) stream {
	f.head[0] = p
	return f.head[:]
}

// next is room for what goes on from the next cell; what goes on from the last one is good until it is called again.
func (f *flume) next() stream {
	f.on, f.spare = f.spare, f.on
	return f.on[:0]
}
