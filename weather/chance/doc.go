// Package chance says how often: from what became of a line in a few winters, how often
// it fails, how surely that is known, and what that costs in a year. It also draws inputs
// that nobody knows well.
//
// A share or a chance is a number from 0 to 1 with an interval (Share), meant to hold the
// true value in 90 of 100 cases (Confidence). Laws of extremes are those of the largest of
// many; for the smallest, turn the signs of sample and level.
//
// Nothing here knows of pipes or weather: all functions are pure, and what they draw at
// random depends on the seed alone, not on the number of threads.
package chance
