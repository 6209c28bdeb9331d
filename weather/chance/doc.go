// Package chance says how often: from what became of a line in a few winters, how often it fails,
// how well that is known, and what it costs in a year. It also draws inputs that are not well known.
//
// # Conventions
//
// A share or a chance is a number from 0 to 1 with an interval (Share) that is meant to hold the
// true value in 90 of 100 cases (Confidence). Margins are in K, below 0 for a winter that failed;
// periods are in winters, money in any one currency. Laws of extremes are those of the largest of
// many; for the smallest, turn the signs of sample and level.
//
// # Entry points
//
//   - Failing: from the margins of winters to the chance that one fails, by a law of extremes where
//     one can be trusted and by the count of failures otherwise (frequency.go; Counted and Binomial).
//   - Fit, FitGumbel, FitGEV: laws (GEV) by L-moments (SampleLMoments). Band, PlottingPeriod and
//     ReducedVariate: what a chart of return periods needs.
//   - Costs.YearlyLoss and PayBack: what failures cost, and how long a better line takes to pay back.
//   - Draws: a Latin hypercube of values in given ranges.
//
// Nothing here knows of pipes, weather or files. All functions are pure: what is drawn at random
// depends on the seed alone, not on the number of threads.
package chance
