package demo

import (
	"fmt"
	"math"
	"strings"
	"time"
)

// The demonstration winter is drawn by hand: fronts that pass every few days, snowfalls,
// and a little noise from a fixed seed. Everything that shapes it stands in this file.

const (
	days       = 74  // from December 1
	dailySwing = 6.0 // warmest less coldest hour of an ordinary day under half cloud [K]
)

var start = time.Date(2025, 12, 1, 0, 0, 0, 0, time.UTC)

// front is the sky as a front leaves it; between fronts the values swing over smoothly.
type front struct {
	day   float64 // days since December 1
	air   float64 // mean of the day [°C]
	wind  float64 // [m/s]
	cloud float64 // share of the sky
}

var fronts = []front{
	{0, 3, 4, .8}, {2, 0, 5, .4}, {4, -3, 3, .2}, {6, 1, 5, .9}, {8, -1, 4, .6},
	{10.5, -4, 3, .2}, {13, 0, 5, .9}, {15, 1, 5, .8}, {17, -2, 4, .5}, {19, -4, 3, .2},
	{21.5, 0, 4, .9}, {24.5, -3, 3, .5}, {27, 0, 5, .9}, {30, -3, 4, .4}, {33, -5, 3, .2},
	{36, -2, 5, .9}, {38.5, -1, 4, .8}, {41, -4, 3, .4}, {44, -2, 6, .9}, // January 14
	{46, -14, 7, .4}, {47.2, -22, 5, .1}, {48.5, -25.4, 3, .05}, {50, -25.4, 3, .05}, {51.2, -22, 3, .1}, // the plunge
	{53, -11, 4, .6}, {55, -6, 4, .9}, {57.5, -9, 3, .3}, {60, -3, 4, .8}, {62, 0.5, 4, .9},
	{64, 2.5, 5, .9}, {66, 2, 4, .7}, {68, 2.5, 4, .8}, {70, 1.5, 3, .8}, {72, -1, 3, .5}, {74, -2, 3, .5},
}

// snowfall is one fall of snow, spread evenly over its hours.
type snowfall struct {
	day   float64 // begins
	hours float64
	water float64 // [mm]
}

var snowfalls = []snowfall{
	{5.5, 16, 7}, {12.6, 14, 7}, {21.2, 18, 10}, {26.7, 12, 8}, {35.6, 18, 12}, {43.4, 20, 13}, {54.5, 14, 7},
}

// weatherFile writes weather.csv.
func weatherFile() string {
	var b strings.Builder
	b.WriteString("# Invented weather for an invented house: made by a program, measured nowhere. Local standard time.\n")
	b.WriteString("time,air_temp_c,wind_m_s,dew_point_c,cloud_fraction,snow_depth_cm\n")
	n := noise(2025)
	var airNoise, windNoise float64
	var snow pack
	for hour := 0; hour <= days*24; hour++ {
		airNoise = 0.9*airNoise + 0.2*n.next()
		windNoise = 0.7*windNoise + 0.3*n.next()
		day := float64(hour) / 24
		f := at(day)
		air := f.air + daily(day, f.cloud) + airNoise
		wind := f.wind * (1 + 0.25*math.Cos(2*math.Pi*(day-14.0/24)) + 0.5*windNoise)
		dew := air - 1 - 3.5*(1-f.cloud)
		fmt.Fprintf(&b, "%s,%s,%s,%s,%s,%s\n", start.Add(time.Duration(hour)*time.Hour).Format("2006-01-02 15:04"),
			decimal(air), decimal(math.Max(wind, 0)), decimal(dew), decimal(f.cloud), decimal(snow.depth()))
		snow.hour(air, falling(day))
	}
	return b.String()
}

// at returns the sky of a day, between the fronts on either side.
func at(day float64) front {
	i := 0
	for i+2 < len(fronts) && fronts[i+1].day <= day {
		i++
	}
	a, b := fronts[i], fronts[i+1]
	share := math.Min(math.Max((day-a.day)/(b.day-a.day), 0), 1)
	share = (1 - math.Cos(math.Pi*share)) / 2
	mix := func(x, y float64) float64 { return x + share*(y-x) }
	return front{day, mix(a.air, b.air), mix(a.wind, b.wind), mix(a.cloud, b.cloud)}
}

// daily returns the hour's departure from the day's mean [K]: lowest at 4 h, highest at
// 16 h, less under cloud.
func daily(day, cloud float64) float64 {
	return -dailySwing / 2 * (1.3 - 0.6*cloud) * math.Cos(2*math.Pi*(day-4.0/24))
}

// falling returns the snow that falls in the hour that begins at day [mm of water].
func falling(day float64) float64 {
	var water float64
	for _, s := range snowfalls {
		if day >= s.day && day < s.day+s.hours/24 {
			water += s.water / s.hours
		}
	}
	return water
}

// pack is the snow on the ground. It is kept apart from the program's own snow model, so
// that the file stays as it is when that model changes.
type pack struct{ water, density float64 } // [mm], [kg/m³]

func (p *pack) depth() float64 { // [cm]
	if p.water == 0 {
		return 0
	}
	return p.water / p.density * 100
}

func (p *pack) hour(air, fresh float64) {
	p.density = 300 - (300-p.density)*math.Exp(-0.01)
	if fresh > 0 {
		p.density = (p.water + fresh) / (p.water/p.density + fresh/90)
		p.water += fresh
	}
	p.water = math.Max(p.water-3.5/24*math.Max(air, 0), 0)
}

// pumpFile writes pump.csv: the basin fills more slowly as the ground freezes, faster in
// a thaw, and never quite evenly.
func pumpFile() string {
	var b strings.Builder
	b.WriteString("# Invented pump cycles of an invented house. Local standard time.\n")
	b.WriteString("start,run_s\n")
	n := noise(41)
	for hour := 2.3; hour < days*24; {
		weather := meanAir(hour/24-5, hour/24)
		pause := 4.7 - 0.22*weather // hours; a week at −22 °C makes it about 9.5
		if weather > 0 {
			pause = 4.2
		}
		begin := start.Add(time.Duration(math.Round(hour*60)) * time.Minute)
		fmt.Fprintf(&b, "%s,%.0f\n", begin.Format("2006-01-02 15:04"), 48+7*n.next())
		hour += pause * (1 + 0.18*n.next())
	}
	return b.String()
}

// meanAir returns the mean of the fronts between two days [°C].
func meanAir(from, to float64) float64 {
	var sum float64
	const parts = 40
	for i := range parts {
		sum += at(from + (to-from)*(float64(i)+0.5)/parts).air
	}
	return sum / parts
}

// decimal writes one decimal, without a minus before zero.
func decimal(v float64) string {
	text := fmt.Sprintf("%.1f", v)
	if text == "-0.0" {
		return "0.0"
	}
	return text
}

// noise is a small generator of even numbers from −1 to 1 (Steele, Lea and Flood 2014,
// SplitMix64): the same on every machine and with every Go release.
type noise uint64

func (n *noise) next() float64 {
	*n += 0x9e3779b97f4a7c15
	z := uint64(*n)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return float64((z^z>>31)>>11)/(1<<52) - 1
}
