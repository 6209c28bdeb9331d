package pipe

// Draws reports whether outdoor air can be drawn through the line when it is drained: it is open
// to the air at the house, by standpipe or relief opening, and at the far end, to daylight or
// by a weep slot over a rock pit.
func (l *Layout) Draws() bool {
	house := l.Standpipe != nil || len(l.Reliefs) > 0
	far := l.Outlet.Kind == Open || l.Outlet.Weep != nil && l.Pocket != nil
	return house && far
}
