package answers

// Goal is what a line is wanted to keep through a winter.
type Goal int

// Goals.
const (
	Open Goal = iota // never shut
	Dry              // no water let go beside the house, none on the floor, and where no basin says where it would stay none that the line refuses
)

// String gives the word for the goal.
func (g Goal) String() string { return [...]string{"open", "dry"}[g] }
