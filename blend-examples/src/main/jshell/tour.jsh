show(table.surfactants().size() + " surfactants, " + table.materials().size() + " materials")
table.search("betaine").forEach(m -> show(m.id() + ", active " + m.activePercent() + " %"))

// What is really in a recipe I already have?
var oat = Blend.named("Oat face wash, as it is").line(table.get("cocamidopropyl-betaine-30"), 14.9).line(table.get("decyl-glucoside-52"), 8.7).line(table.get("glycerin"), 3).upToHundredWith(table.get("water"))
show(oat)
show(oat.share(AMPHOTERIC) + " amphoteric; nonionic " + oat.active(NONIONIC))
show(StartingPh.of(oat))

// The same idea as a brief: let the library choose.
var brief = Brief.named("Oat face wash").totalActive(9, 0.2).share(AMPHOTERIC, 40, 60).startingPh(6, 7.5).choosingFrom("cocamidopropyl-betaine-30", "decyl-glucoside-52", "coco-glucoside-52", "sodium-cocoyl-glutamate-27").fixed("glycerin", 3).atMostSurfactants(3).cheapest().build()
show(Blends.solve(brief, table))

// The next best choices of drums.
Blends.alternatives(brief, table, 3).blends().forEach(s -> show(Text.fixed(s.wishValue(), 4) + " cu/kg: " + s.blend().lines().stream().filter(l -> l.material().isSurfactant()).map(l -> l.material().id()).collect(Collectors.joining(", "))))

// How mild, as far as that can be said: measures side by side.
show(Blends.mildness(oat, table))
show(Blends.solve(brief.toBuilder().mildest().build(), table).fold(s -> "mildest: " + s.irritationIndex().text(), n -> n.summary()))

// A narrower pH for every lot, not only typical ones: can that be promised?
show(Blends.solve(brief.toBuilder().everyLotWithinSpecification().build(), table))

// The beaker reads 8.1 and should read 5.5: a titration that learns.
var trial = AcidDose.of(oat).to(5.5).with(Titrant.citricAcid(5)).forBatch(Mass.grams(400)).begin(Meter.accurateTo(0.05)).reading(8.1)
show(trial.next())
trial = trial.dosed(1.59).reading(6.52)
show(trial)
show(trial.curveTable(4, 9))
