package weather

import (
	"fmt"
	"math"
	"time"
)

// Snap is a design cold snap: mild days, a fall of temperature, days at the bottom, a rise
// and mild days again, with a daily swing all the while. Wind is steady, and snow lies
// from the first hour or from a given one on. Nothing in it is drawn at random.
type Snap struct {
	Low      float64   // lowest air temperature, of every morning at the bottom [°C]
	Mild     float64   // mean air temperature of the days before and after [°C]
	Swing    float64   // from the lowest to the highest of a day [K]
	Fall     float64   // from mild to the bottom [s]
	Bottom   float64   // at the bottom [s]
	Rise     float64   // from the bottom to mild [s]
	Before   float64   // mild, before the fall [s]
	After    float64   // mild, after the rise [s]
	Begins   time.Time // when the fall begins, a full hour
	Wind     float64   // speed at 10 m [m/s]
	Snow     float64   // depth on the ground [m]
	SnowFrom time.Time // first hour with that depth, bare ground before; zero: all the time
}

// coldestHour is the hour of the day at which the daily swing has its minimum, near
// sunrise (common practice, no source).
const coldestHour = 6

// BottomMean is the mean air temperature of the days at the bottom [°C].
func (p Snap) BottomMean() float64 { return p.Low + p.Swing/2 }

// mean returns the air temperature without the daily swing [°C], t seconds after the fall
// begins: straight lines between the mild mean and that of the bottom.
func (p Snap) mean(t float64) float64 {
	share := 1.0 // of the way down
	switch up := t - p.Fall - p.Bottom; {
	case t <= 0 || up >= p.Rise:
		share = 0
	case t < p.Fall:
		share = t / p.Fall
	case up > 0:
		share = 1 - up/p.Rise
	}
	return p.Mild + share*(p.BottomMean()-p.Mild)
}

// air returns the air temperature [°C] t seconds after the fall begins, to a hundredth: the
// mean less half the swing times the cosine of the time of day, counted from 06:00.
func (p Snap) air(t float64) float64 {
	midnight := p.Begins.Truncate(24 * time.Hour)
	day := (t + p.Begins.Sub(midnight).Seconds()) / secondsPerDay
	air := p.mean(t) - p.Swing/2*math.Cos(2*math.Pi*(day-coldestHour/24.0))
	return rounded(air, 100)
}

// Series makes the record, a row on every full hour.
func (p Snap) Series() *Series {
	first := -math.Ceil(p.Before / 3600)
	last := math.Ceil((p.Fall + p.Bottom + p.Rise + p.After) / 3600)
	s := &Series{Source: "design cold snap", Format: plainName, Design: p.words(),
		Start: p.Begins.Add(time.Duration(first) * time.Hour)}
	for hour := first; hour <= last; hour++ {
		t := hour * 3600
		s.Time = append(s.Time, t-first*3600)
		s.Air = append(s.Air, p.air(t))
		s.Wind = append(s.Wind, p.Wind)
		snow := p.Snow
		if s.Stamp(t - first*3600).Before(p.SnowFrom) {
			snow = 0
		}
		s.SnowDepth = append(s.SnowDepth, snow)
	}
	return s
}

// words say how the snap is made.
func (p Snap) words() []string {
	snow := fmt.Sprintf("snow of %s cm (%s in)", threeDecimals(100*p.Snow), oneDecimal(p.Snow/metresPerInch))
	if !p.SnowFrom.IsZero() {
		snow += " from " + showTime(p.SnowFrom) + " on, bare ground before"
	}
	return []string{
		"made by rule, no record of any winter",
		fmt.Sprintf("%s at a mean of %s; from %s a fall of %s h to a mean of %s",
			dayCount(p.Before), bothDegrees(threeDecimals, p.Mild), showTime(p.Begins), threeDecimals(p.Fall/3600), bothDegrees(threeDecimals, p.BottomMean())),
		fmt.Sprintf("%s there, down to %s; a rise of %s h; %s at a mean of %s",
			dayCount(p.Bottom), bothDegrees(threeDecimals, p.Low), threeDecimals(p.Rise/3600), dayCount(p.After), bothDegrees(threeDecimals, p.Mild)),
		fmt.Sprintf("a daily swing of %s, coldest at %02d:00; wind of %s m/s (%s mph); %s",
			bothKelvin(threeDecimals, p.Swing), coldestHour, threeDecimals(p.Wind), oneDecimal(p.Wind/metresPerSecondPerMph), snow),
	}
}

// dayCount gives a time [s] in days.
func dayCount(t float64) string {
	if t == secondsPerDay {
		return "1 day"
	}
	return threeDecimals(t/secondsPerDay) + " days"
}
