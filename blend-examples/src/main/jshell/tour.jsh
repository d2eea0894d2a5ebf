show(table.surfactants().size() + " surfactants, " + table.materials().size() + " materials")
table.search("betaine").forEach(m -> show(m.id() + ", active " + m.activePercent() + " %"))

// My own drum, typed in from its sheet: can the library be trusted with it?
var mine = MaterialFile.readCsv(Input.text("shelf.csv", "id,inci_name,charge_class,family,active_typ_pct,dry_residue_min_pct,dry_residue_max_pct,ph_low,ph_high,ph_dilution_pct,salt_min_pct,salt_max_pct,molar_mass_g_per_mol,active_source,ph_source,salt_source,molar_mass_source,dry_residue_source\nmy-betaine,Cocamidopropyl Betaine,amphoteric,amidopropyl betaine,31,36,39,4.8,5.4,0.1,4.9,5.6,34.8,sheet,sheet,sheet,sheet,sheet"), table).orElseThrow()
show(Conformance.of(mine.get("my-betaine")))

// What is really in a recipe I already have?
var oat = Blend.named("Oat face wash, as it is").line(table.get("cocamidopropyl-betaine-30"), 14.9).line(table.get("decyl-glucoside-52"), 8.7).line(table.get("glycerin"), 3).upToHundredWith(table.get("water"))
show(oat)
show(oat.share(AMPHOTERIC) + " amphoteric; nonionic " + oat.active(NONIONIC))
show(StartingPh.of(oat))

// The same idea as a brief: let the library choose.
var brief = Brief.named("Oat face wash").totalActive(9, 0.2).share(AMPHOTERIC, 40, 60).startingPh(6, 7.5).choosingFrom("cocamidopropyl-betaine-30", "decyl-glucoside-52", "coco-glucoside-52", "sodium-cocoyl-glutamate-27").fixed("glycerin", 3).atMostSurfactants(3).cheapest().build()
show(Blends.solve(brief, table))

// The next best choices of drums.
show(Blends.alternatives(brief, table, 3).table())

// What does a milder one cost, and what would change the answer?
var fixedTotal = brief.withRequirement(0, Requirement.of(Requirement.Kind.TOTAL_ACTIVE, "", 9, 9))
show(Blends.tradeOff(fixedTotal, table, Measure.COST, Measure.IRRITATION_INDEX).table())
show(Blends.alternatives(brief, table, 1).blends().get(0).sensitivity().table())

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
