package sim

// flume is the room in which streams are cut and joined on their way through a line, one lot of water at a time. Every
// slice in it is used again for the next cell, or for the next lot, so that running water allocates nothing.
type flume struct {
	on, spare   stream    // what leaves a cell, and room for what leaves the next
	ice, melted stream    // a cell's ice, and what of it has melted
	stay, late  stream    // what stays in the cell of the stream, and of what melted
	rest        stream    // what is left of a stream whose front was cut off
	head, blend [1]parcel // a lot that comes in, and one blended of several parcels
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

// next is room for what leaves the next cell; what left the last one stays good until next is called again.
func (f *flume) next() stream {
	f.on, f.spare = f.spare, f.on
	return f.on[:0]
}
