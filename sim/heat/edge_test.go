package heat_test

import (
	"math"
	"testing"

	"winterline/sim/heat"
)

// Figures that handbooks print to so many digits (from memory).
func TestHandbookFigures(t *testing.T) {
	near(t, "ice at 0 °C [W/(m K)]", heat.IceConductivityAt(0), 2.07, 3e-3)
	near(t, "Prandtl number of water at 20 °C", heat.WaterPrandtl(20), 7.0, 0.01)
	near(t, "viscosity of water at 20 °C [m²/s]", heat.WaterKinematicViscosity(20), 1.004e-6, 1e-3)
	near(t, "slush of water at −4 °C", heat.DendriticFraction(-4), 4*4.219/333.427, 1e-9)
	near(t, "snow of 300 kg/m³ by Sturm", heat.SnowConductivity(300), 0.126, 1e-3)
	near(t, "snow of 100 kg/m³ by Sturm", heat.SnowConductivity(100), 0.0464, 1e-3)
	near(t, "10 cm of that [m² K/W]", heat.SnowResistance(0.1, 100), 0.1/0.0464, 1e-3)
	near(t, "snow of 300 kg/m³ by Calonne", heat.SnowConductivityCalonne(300), 0.212, 1e-3)
	near(t, "snow as dense as ice by Yen", heat.SnowConductivityYen(917), 1.89, 5e-3)
	near(t, "sky over a dew point of 0 °C", heat.SkyBerdahlMartin(0), 0.711, 1e-9)
	near(t, "the same at midnight", heat.SkyMartinBerdahl(0, 0, 100_000), 0.711+0.013, 1e-9)
	near(t, "clear sky by Swinbank at 10 °C [°C]", heat.SkySwinbank(10), 0.0552*math.Pow(283.15, 1.5)-273.15, 1e-9)
	near(t, "clear sky by Brutsaert, 10 hPa at 280 K", heat.SkyBrutsaert(6.85, 1000), 1.24*math.Pow(10.0/280, 1.0/7), 1e-9)
}

// An overcast sky is nearly black, a clear one as it is, and in between lies in between; a sky that is black has the air's
// temperature.
func TestCloudsWarmTheSky(t *testing.T) {
	near(t, "clear", heat.SkyEmissivity(-5, 0), heat.SkyBerdahlMartin(-5), 1e-12)
	near(t, "overcast", heat.CloudCampbellNorman(0.7, 1), 0.16*0.7+0.84, 1e-12)
	near(t, "overcast, linear", heat.CloudLinear(0.7, 10), 0.7+0.784*0.3, 1e-12)
	near(t, "ten tenths by Walton", heat.CloudWalton(10), 1+0.224-0.35+0.28, 1e-12)
	near(t, "black sky [°C]", heat.SkyTemperature(-10, 1), -10, 1e-9)
	near(t, "loss to surroundings of −10 °C [W/m²]", heat.NetLongWave(0, -10, 0.9), 0.9*5.670374419e-8*(math.Pow(273.15, 4)-math.Pow(263.15, 4)), 1e-9)
}

// Relations of other authors for the same films lie near; a blend by a higher power lies nearer to the greater of two.
func TestFilmsOfOtherAuthors(t *testing.T) {
	near(t, "indoor film", heat.FilmIndoorISO(0.06, 10), heat.FilmNatural(20, 10, 0.06), 0.25)
	near(t, "indoor film of a large pipe", heat.FilmIndoorISO(0.6, 100), 1.21*math.Cbrt(100), 1e-12)
	near(t, "turbulent film at a Prandtl number of 1", heat.NusseltDittusBoelter(5e4, 1), heat.NusseltInside(5e4, 1, 0), 0.05)
	near(t, "outdoor film in a breeze", heat.FilmOutdoorISO(0.06, 5), 8.9*math.Pow(5, 0.9)/math.Pow(0.06, 0.1), 1e-12)
	near(t, "and in hardly any", heat.FilmOutdoorISO(0.05, 0.1), 8.1e-3/0.05+3.14*math.Sqrt(2), 1e-12)
	forced, natural := heat.FilmForced(-10, 0, 0.06, 0.3), heat.FilmNatural(-10, 0, 0.06)
	third, fourth := heat.Film(-10, 0, 0.06, 0.3), heat.FilmBlended(-10, 0, 0.06, 0.3, 4)
	near(t, "blend by the fourth power", math.Pow(fourth, 4), math.Pow(forced, 4)+math.Pow(natural, 4), 1e-9)
	if greatest := max(forced, natural); fourth <= greatest || fourth >= third {
		t.Errorf("forced %g, natural %g: blended %g by the third and %g by the fourth power", forced, natural, third, fourth)
	}
}

// 100 kJ/m of latent heat take 20000 s through 2 m K/W to −10 °C; 5 kJ/(m K) of water and wall that cool from 4 °C lose 20 kJ/m
// at the 6 W/m of their mean difference to it.
func TestTimesByHand(t *testing.T) {
	near(t, "freezing [s]", heat.FreezingTime(1e5, 2, -10), 20_000, 1e-12)
	near(t, "cooling from 4 °C by the mean difference [s]", heat.CoolingTimeISO(5000, 2, 4, -10), 5000*4*2.0/12, 1e-12)
	near(t, "water squeezed by a hundredth of ice [Pa]", heat.TrappedPressure(0.01, 5e-10), (999.84/916.7-1)*0.01/(5e-10*0.99), 1e-9)
}
