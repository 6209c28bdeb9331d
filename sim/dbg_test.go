package sim_test
import ("testing";"context";"time";"winterline/sim";"fmt")
func TestDbg(t *testing.T) {
	for seed:=uint64(1);seed<=50;seed++ { k:=drawCase(t,seed); s:=time.Now(); r,err:=sim.Run(context.Background(),k,sim.Settings{}); if err!=nil {fmt.Println(seed,err); continue}
	if d:=time.Since(s); d>500*time.Millisecond { fmt.Printf("%d %v rows %d %+v wash\n",seed,d,len(k.Weather.Time),r.Stats) } }
}
