package org.surfactantblend.solve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.blend.BlendLine;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.brief.Requirement;
import org.surfactantblend.brief.Wish;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.ChargeCurve;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.ChargeShare;
import org.surfactantblend.mildness.MixingCredit;
import org.surfactantblend.optimise.LinearProgram;
import org.surfactantblend.quantity.Range;

/**
 * The linear programme of a brief: what each requirement means as coefficients of the mass
 * fractions. The only place where a brief becomes rows.
 *
 * <p>The unknowns are mass fractions as supplied [kg/kg of product] of the materials in {@link
 * #columns}: candidates first, then fixed lines, water last. A wish may add variables of its own
 * behind them.
 */
final class Programme {
  /** The ionic strength at which a charge on the active is counted [mol/kg water]. */
  static final double NOMINAL_IONIC_STRENGTH = ChargeShare.IONIC_STRENGTH;

  /** Mass fractions up to this are rounding of a programme [kg/kg]. */
  private static final double DUST = 1e-11;

  /** What a better answer has to gain in the wish, as a part of it, to be looked for. */
  private static final double GAIN = 1e-7;

  /** Beyond any index times active matter [%]. */
  private static final double GREATEST_FLOOR = 1e7;

  final Brief brief;
  final MaterialTable table;
  final List<Material> columns;
  final int candidates;
  final List<Clash> clashes;
  final List<Clash> excluded;
  final ChargeCurve[] curves;
  final double[] lower;
  final double[] upper;
  private final Map<String, ChargeCurve> titrants = new HashMap<>();
  private final boolean robust;
  private final @Nullable IndexRows index;
  private final double[] activeLow;
  private final double[] activeTypical;
  private final double[] activeHigh;

  Programme(Brief brief, MaterialTable table) {
    this.brief = brief;
    this.table = table;
    robust = brief.lots() == Brief.Lots.EVERY_LOT_WITHIN_SPECIFICATION;
    boolean guard = brief.guardOffReason().isEmpty();
    List<Material> fixed = brief.fixed().keySet().stream().map(table::get).toList();
    excluded = new ArrayList<>();
    columns = new ArrayList<>();
    for (Material m : candidates(brief, table)) {
      if (guard && !brief.mustUse().contains(m.id())) {
        Clash clash = Clash.withAskedPh(m, brief).orElse(null);
        for (Material f : fixed) {
          clash = clash == null ? Clash.between(m, f).map(c -> c.toldOf(m)).orElse(null) : clash;
        }
        if (clash != null) {
          excluded.add(clash);
          continue;
        }
      }
      columns.add(m);
    }
    candidates = columns.size();
    clashes = guard ? Clash.among(columns) : List.of();
    columns.addAll(fixed);
    columns.add(table.get(brief.water()));
    int n = columns.size();
    curves = new ChargeCurve[n];
    lower = new double[n];
    upper = new double[n];
    activeLow = new double[n];
    activeTypical = new double[n];
    activeHigh = new double[n];
    Double[] fixedAmounts = brief.fixed().values().toArray(Double[]::new);
    for (int j = 0; j < n; j++) {
      Material m = columns.get(j);
      curves[j] = m.chargeCurve(brief.conditions());
      boolean isFixed = j >= candidates && j < n - 1;
      lower[j] = isFixed ? fixedAmounts[j - candidates] / 100 : 0;
      upper[j] = isFixed ? lower[j] : 1;
      activeLow[j] = m.activePercent().low();
      activeTypical[j] = m.activePercent().typical();
      activeHigh[j] = m.activePercent().high();
    }
    for (Requirement r : brief.requirements()) {
      if (r.kind() == Requirement.Kind.TO_REACH_PH) {
        titrants.put(r.subject(), table.get(r.subject()).chargeCurve(brief.conditions()));
      }
    }
    index =
        asksForIndex(brief)
            ? new IndexRows(columns, table.scores(), credit(brief), brief.conditions())
            : null;
    for (int j = 0; j < candidates && brief.wish().needsScores(); j++) {
      upper[j] = index().unscored[j] ? 0 : upper[j];
    }
  }

  private static @Nullable MixingCredit credit(Brief brief) {
    return brief.mixingCredit().orElse(null);
  }

  private static boolean asksForIndex(Brief brief) {
    return brief.wish().needsScores()
        || brief.requirements().stream().anyMatch(r -> isIndex(r.kind()));
  }

  static boolean isIndex(Requirement.Kind kind) {
    return kind == Requirement.Kind.IRRITATION_INDEX || kind == Requirement.Kind.BLENDED_INDEX;
  }

  /** The indexes, of a brief that asks for one. */
  IndexRows index() {
    if (index == null) {
      throw new IllegalStateException("the brief asks for no index");
    }
    return index;
  }

  /** The candidates that cannot be used because the brief's index or charge share needs more. */
  List<String> withoutFigures() {
    List<Requirement> judging =
        brief.requirements().stream()
            .filter(r -> r.kind() == Requirement.Kind.NET_ANIONIC_CHARGE_SHARE)
            .toList();
    if (index == null && judging.isEmpty()) {
      return List.of();
    }
    List<String> ids = new ArrayList<>();
    for (int j = 0; j < candidates; j++) {
      int column = j;
      if ((index != null && index.unscored[j])
          || judging.stream().anyMatch(r -> isUncounted(column, r))) {
        ids.add(columns.get(j).id());
      }
    }
    return ids;
  }

  /** Whether a requirement cannot be judged for a blend that holds a material. */
  private boolean isUncounted(int j, Requirement r) {
    return switch (r.kind()) {
      case IRRITATION_INDEX, BLENDED_INDEX -> index().unscored[j];
      case NET_ANIONIC_CHARGE_SHARE ->
          columns.get(j).isSurfactant()
              && ChargeShare.chargePerMole(columns.get(j), r.atPh(), brief.conditions()).isEmpty();
      default -> false;
    };
  }

  /**
   * The rows of a bound that is linear: its own and, where some material cannot be judged by it,
   * one that keeps such materials out. The second goes with the bound when that is given up.
   */
  void addRows(List<Row> rows, Bound bound) {
    if (bound.requirement().kind() != Requirement.Kind.BLENDED_INDEX) {
      Row own = row(bound);
      if (!own.isKeptByAll()) {
        rows.add(own);
      }
    }
    double[] out = new double[columns.size()];
    boolean any = false;
    for (int j = 0; j < candidates; j++) {
      if (isUncounted(j, bound.requirement())) {
        out[j] = 1;
        any = true;
      }
    }
    if (any) {
      rows.add(new Row(out, Double.NEGATIVE_INFINITY, 0));
    }
  }

  /** The materials to choose from. */
  static List<Material> candidates(Brief brief, MaterialTable table) {
    List<Material> all = new ArrayList<>();
    if (brief.candidates().isEmpty()) {
      all.addAll(table.surfactants());
      all.removeIf(m -> brief.fixed().containsKey(m.id()));
    } else {
      brief.candidates().forEach(id -> all.add(table.get(id)));
    }
    for (String id : brief.mustUse()) {
      Material m = table.get(id);
      if (!all.contains(m)) {
        all.add(m);
      }
    }
    all.removeIf(m -> brief.leftOut().contains(m.id()));
    return all;
  }

  int water() {
    return columns.size() - 1;
  }

  int indexOf(String id) {
    for (int j = 0; j < columns.size(); j++) {
      if (columns.get(j).id().equals(id)) {
        return j;
      }
    }
    return -1;
  }

  /** The place of a candidate, or -1 when it is none. */
  int candidateIndex(String id) {
    int j = indexOf(id);
    return j < candidates ? j : -1;
  }

  /** One row over the mass fractions. */
  @SuppressWarnings("ArrayRecordComponent")
  record Row(double[] coefficients, double low, double high) {
    /**
     * Whether every blend keeps it, because fractions sum to 1. Such a row is left out: its far
     * bound would widen the tolerance of the whole programme.
     */
    boolean isKeptByAll() {
      double least = Double.POSITIVE_INFINITY;
      double greatest = Double.NEGATIVE_INFINITY;
      for (double c : coefficients) {
        least = Math.min(least, c);
        greatest = Math.max(greatest, c);
      }
      return low <= least && greatest <= high;
    }

    /**
     * Closes the columns that no blend can use because a sum of one sign has to be zero, as with no
     * salt at all: left open, their coefficients would widen the tolerance of every row.
     *
     * @param least the least mass fractions
     * @param greatest the greatest mass fractions, changed here
     */
    void closeUnusable(double[] least, double[] greatest) {
      boolean noneAbove = high <= 0;
      boolean noneBelow = low >= 0;
      for (int j = 0; j < coefficients.length; j++) {
        noneAbove &= greatest[j] == 0 || coefficients[j] >= 0;
        noneBelow &= greatest[j] == 0 || coefficients[j] <= 0;
      }
      for (int j = 0; j < coefficients.length && (noneAbove || noneBelow); j++) {
        greatest[j] = coefficients[j] != 0 && least[j] == 0 ? 0 : greatest[j];
      }
    }
  }

  /** The row of one end of a requirement other than a pH. */
  Row row(Bound bound) {
    Requirement r = bound.requirement();
    boolean up = bound.upper();
    int n = columns.size();
    double[] c = new double[n];
    double end = bound.value();
    switch (r.kind()) {
      case TOTAL_ACTIVE -> {
        double[] a = !robust ? activeTypical : up ? activeHigh : activeLow;
        System.arraycopy(a, 0, c, 0, n);
      }
      case CLASS_SHARE -> {
        ChargeClass wanted = ChargeClass.parse(r.subject()).orElseThrow();
        for (int j = 0; j < n; j++) {
          double own = pick(columns.get(j).activePercent(wanted), up);
          double others =
              pick(columns.get(j).activePercent(), !up)
                  - pick(columns.get(j).activePercent(wanted), !up);
          c[j] = own * (1 - end / 100) - Math.max(0, others) * end / 100;
        }
        return new Row(c, up ? Double.NEGATIVE_INFINITY : 0, up ? 0 : Double.POSITIVE_INFINITY);
      }
      case MATERIAL_SHARE -> {
        for (int j = 0; j < n; j++) {
          boolean own = columns.get(j).id().equals(r.subject());
          c[j] =
              own
                  ? pick(columns.get(j).activePercent(), up) * (1 - end / 100)
                  : -pick(columns.get(j).activePercent(), !up) * end / 100;
        }
        return new Row(c, up ? Double.NEGATIVE_INFINITY : 0, up ? 0 : Double.POSITIVE_INFINITY);
      }
      case AS_SUPPLIED -> {
        int j = indexOf(r.subject());
        if (j >= 0) {
          c[j] = 100;
        }
      }
      case SALT -> {
        for (int j = 0; j < n; j++) {
          c[j] = pick(columns.get(j).saltPercent(), up);
        }
      }
      case NET_ANIONIC_CHARGE -> {
        for (int j = 0; j < n; j++) {
          c[j] = -1000 * curves[j].chargeOnActiveEqPerKg(r.atPh(), NOMINAL_IONIC_STRENGTH);
        }
      }
      case NET_ANIONIC_CHARGE_SHARE -> {
        for (int j = 0; j < n; j++) {
          double above = chargeShare(j, r) - end;
          Range moles = columns.get(j).activeMolPerKg();
          c[j] = above * (!robust ? moles.typical() : above > 0 == up ? moles.high() : moles.low());
        }
        return new Row(c, up ? Double.NEGATIVE_INFINITY : 0, up ? 0 : Double.POSITIVE_INFINITY);
      }
      case IRRITATION_INDEX -> {
        for (int j = 0; j < n; j++) {
          c[j] = index().coefficient(j, end, up, robust);
        }
        return new Row(c, up ? Double.NEGATIVE_INFINITY : 0, up ? 0 : Double.POSITIVE_INFINITY);
      }
      case STARTING_PH, STARTING_PH_OF_SURFACTANTS, TO_REACH_PH, BLENDED_INDEX ->
          throw new IllegalArgumentException("not linear: " + r.kind());
      case COST -> {
        for (int j = 0; j < n; j++) {
          c[j] = price(j);
        }
      }
    }
    return new Row(c, up ? Double.NEGATIVE_INFINITY : end, up ? end : Double.POSITIVE_INFINITY);
  }

  /** The negative charge of a material's surfactant [mol per 100 mol]; 0 when not known. */
  private double chargeShare(int j, Requirement r) {
    return 100
        * Math.max(
            0, -ChargeShare.chargePerMole(columns.get(j), r.atPh(), brief.conditions()).orElse(0));
  }

  private double pick(Range r, boolean high) {
    return !robust ? r.typical() : high ? r.high() : r.low();
  }

  double price(int j) {
    return table
        .prices()
        .pricePerKg(columns.get(j).id())
        .orElseThrow(() -> new IllegalStateException("no price of " + columns.get(j).id()));
  }

  static boolean isPh(Bound b) {
    Requirement.Kind k = b.requirement().kind();
    return k == Requirement.Kind.STARTING_PH
        || k == Requirement.Kind.STARTING_PH_OF_SURFACTANTS
        || k == Requirement.Kind.TO_REACH_PH;
  }

  /** A pH end as this programme reads it. */
  PhEnd phEnd(Bound bound) {
    return new PhEnd(
        bound,
        columns,
        curves,
        brief.conditions(),
        robust,
        titrants.get(bound.requirement().subject()));
  }

  /** The figure a requirement is about, at the typical contents. */
  double value(double[] w, Requirement r) {
    double part = 0;
    double whole = 0;
    if (r.kind() == Requirement.Kind.BLENDED_INDEX) {
      return index().blendedAt(w);
    }
    for (int j = 0; j < columns.size(); j++) {
      whole +=
          w[j]
              * (r.kind() == Requirement.Kind.NET_ANIONIC_CHARGE_SHARE
                  ? columns.get(j).activeMolPerKg().typical()
                  : activeTypical[j]);
      part +=
          w[j]
              * switch (r.kind()) {
                case TOTAL_ACTIVE -> activeTypical[j];
                case CLASS_SHARE ->
                    columns
                        .get(j)
                        .activePercent(ChargeClass.parse(r.subject()).orElseThrow())
                        .typical();
                case MATERIAL_SHARE ->
                    columns.get(j).id().equals(r.subject()) ? activeTypical[j] : 0;
                case AS_SUPPLIED -> columns.get(j).id().equals(r.subject()) ? 100 : 0;
                case SALT -> columns.get(j).saltPercent().typical();
                case NET_ANIONIC_CHARGE ->
                    -1000 * curves[j].chargeOnActiveEqPerKg(r.atPh(), NOMINAL_IONIC_STRENGTH);
                case NET_ANIONIC_CHARGE_SHARE ->
                    chargeShare(j, r) * columns.get(j).activeMolPerKg().typical();
                case IRRITATION_INDEX -> index().load[j];
                case COST -> price(j);
                default -> throw new IllegalArgumentException("not linear: " + r.kind());
              };
    }
    return switch (r.kind()) {
      case CLASS_SHARE, MATERIAL_SHARE -> whole == 0 ? 0 : part / whole * 100;
      case NET_ANIONIC_CHARGE_SHARE, IRRITATION_INDEX -> whole == 0 ? 0 : part / whole;
      default -> part;
    };
  }

  /**
   * An objective: the number to make small, as {@code (cost.w + 100 * sum of distances) / (per.w)}.
   *
   * @param cost what a mass fraction costs
   * @param per what the sum is divided by; empty when it is no ratio
   * @param targets equalities whose distance counts
   * @param floors rows of which the greatest value counts, none when there is no such part
   * @param blended whether the blended index is meant, of which the floors are tangents
   */
  @SuppressWarnings("ArrayRecordComponent")
  record Objective(
      double[] cost, double[] per, List<Row> targets, List<double[]> floors, boolean blended) {
    Objective(double[] cost, double[] per, List<Row> targets) {
      this(cost, per, targets, List.of(), false);
    }

    /** The least of a sum, no ratio. */
    static Objective plain(double[] cost) {
      return new Objective(cost, new double[0], List.of());
    }

    /** The greatest of some tangents in place of the blended index. */
    Objective over(List<double[]> tangents) {
      return new Objective(new double[cost.length], per, targets, List.copyOf(tangents), false);
    }

    /** What makes this ratio less than another number where it is negative; itself if no ratio. */
    Objective at(double ratio) {
      if (!isRatio()) {
        return this;
      }
      double[] less = cost.clone();
      for (int j = 0; j < less.length; j++) {
        less[j] -= ratio * per[j];
      }
      return new Objective(less, new double[0], targets, floors, blended);
    }

    /** Whether the costs are all of it, or the ratio's numerator. */
    boolean isLinear() {
      return !blended && targets.isEmpty() && floors.isEmpty();
    }

    /** Whether every answer is as good as any other. */
    boolean isNothing() {
      return isLinear() && Arrays.equals(cost, new double[cost.length]);
    }

    boolean isRatio() {
      return per.length > 0;
    }
  }

  Objective objective() {
    int n = columns.size();
    double[] cost = new double[n];
    Wish wish = brief.wish();
    switch (wish.aim()) {
      case LEAST_SURFACTANT -> Arrays.fill(cost, 0, candidates, 100);
      case CHEAPEST -> {
        for (int j = 0; j < n; j++) {
          cost[j] = price(j);
        }
      }
      case LEAST_ANIONIC_SHARE -> {
        for (int j = 0; j < n; j++) {
          cost[j] = columns.get(j).activePercent(ChargeClass.ANIONIC).typical() * 100;
        }
        return new Objective(cost, activeTypical.clone(), List.of());
      }
      case MILDEST, MILDEST_BLENDED -> {
        return new Objective(
            index().load.clone(),
            activeTypical.clone(),
            List.of(),
            List.of(),
            wish.aim() == Wish.Aim.MILDEST_BLENDED);
      }
      case LEAST_CHANGE -> {
        return leastChange(wish.from().orElseThrow());
      }
      case NEAREST_SHARES -> {
        return nearest(wish.shares());
      }
    }
    return new Objective(cost, new double[0], List.of());
  }

  private Objective leastChange(Blend from) {
    int n = columns.size();
    double[] reference = new double[n];
    for (BlendLine l : from.lines()) {
      int j = indexOf(l.material().id());
      if (j >= 0) {
        reference[j] += l.massFraction();
      }
    }
    double[] cost = new double[n];
    List<Row> targets = new ArrayList<>();
    double gone = 0;
    for (BlendLine l : from.lines()) {
      gone += indexOf(l.material().id()) < 0 ? l.massFraction() : 0;
    }
    if (gone > 0) {
      // What the brief keeps out of the blend is a change too, the same one for every answer.
      targets.add(new Row(new double[n], gone, gone));
    }
    for (int j = 0; j < n; j++) {
      if (reference[j] > 0) {
        double[] one = new double[n];
        one[j] = 1;
        targets.add(new Row(one, reference[j], reference[j]));
      } else {
        cost[j] = 100;
      }
    }
    return new Objective(cost, new double[0], targets);
  }

  private Objective nearest(Map<ChargeClass, Double> shares) {
    int n = columns.size();
    List<Row> targets = new ArrayList<>();
    for (Map.Entry<ChargeClass, Double> e : shares.entrySet()) {
      double[] c = new double[n];
      for (int j = 0; j < n; j++) {
        c[j] =
            columns.get(j).activePercent(e.getKey()).typical()
                - e.getValue() / 100 * activeTypical[j];
      }
      targets.add(new Row(c, 0, 0));
    }
    return new Objective(new double[n], activeTypical.clone(), targets);
  }

  /** What a mass fraction adds to a measure, in the measure's unit; not for a count. */
  double[] measure(Measure m) {
    int n = columns.size();
    double[] per = new double[n];
    double total = onlyTotalActive(brief).orElse(Double.NaN);
    if (m == Measure.IRRITATION_INDEX) {
      double[] load = new IndexRows(columns, table.scores(), null, brief.conditions()).load;
      Arrays.setAll(per, j -> load[j] / total);
      return per;
    }
    for (int j = 0; j < n; j++) {
      Material material = columns.get(j);
      per[j] =
          switch (m) {
            case COST -> price(j);
            case SURFACTANT_AS_SUPPLIED -> j < candidates ? 100 : 0;
            case ANIONIC_SHARE ->
                material.activePercent(ChargeClass.ANIONIC).typical() * 100 / total;
            case SALT -> material.saltPercent().typical();
            case NOT_OF_NATURAL_ORIGIN -> 100 - material.naturalOriginPercent().orElseThrow();
            case IRRITATION_INDEX, SURFACTANT_COUNT ->
                throw new IllegalArgumentException("not a sum: " + m);
          };
    }
    return per;
  }

  /** The total active that the brief asks for when it leaves no tolerance. */
  static OptionalDouble onlyTotalActive(Brief brief) {
    return brief.requirements().stream()
        .filter(r -> r.kind() == Requirement.Kind.TOTAL_ACTIVE && r.low() == r.high())
        .mapToDouble(Requirement::low)
        .findFirst();
  }

  /**
   * The value of an objective at a blend.
   *
   * @param w mass fractions
   */
  double objectiveValue(Objective o, double[] w) {
    if (o.blended()) {
      return index().blendedAt(w);
    }
    double sum = dot(o.cost(), w);
    if (!o.floors().isEmpty()) {
      sum += o.floors().stream().mapToDouble(f -> dot(f, w)).max().orElseThrow();
    }
    for (Row target : o.targets()) {
      sum += 100 * Math.abs(dot(target.coefficients(), w) - target.low());
    }
    if (!o.isRatio()) {
      return sum;
    }
    double per = dot(o.per(), w);
    return per == 0 ? 0 : sum / per;
  }

  /** Whether a wish is better than that of mass fractions by more than can be told. */
  boolean isBetter(Objective o, double wish, double @Nullable [] than) {
    if (than == null) {
      return true;
    }
    double before = objectiveValue(o, than);
    return wish < before - GAIN * Math.max(1, Math.abs(before));
  }

  /** The same of two answers. */
  boolean isBetter(Objective o, double[] found, double @Nullable [] than) {
    return isBetter(o, objectiveValue(o, found), than);
  }

  static double dot(double[] a, double[] w) {
    double sum = 0;
    for (int j = 0; j < w.length; j++) {
      sum += a[j] * w[j];
    }
    return sum;
  }

  /**
   * The programme of some rows and an objective. Its first variables are the mass fractions, in the
   * order of the columns; behind them stand two distances for each target, and the greatest of the
   * floors if there are any.
   *
   * @param rows the requirements' rows
   * @param o the objective, no ratio: {@link Objective#at} makes one
   * @param low least mass fractions
   * @param high greatest mass fractions
   */
  LinearProgram model(List<Row> rows, Objective o, double[] low, double[] high) {
    int n = columns.size();
    boolean floored = !o.floors().isEmpty();
    int greatest = n + 2 * o.targets().size();
    int extra = greatest - n + (floored ? 1 : 0);
    List<Row> all = new ArrayList<>(rows);
    o.floors().forEach(f -> all.add(new Row(f, Double.NEGATIVE_INFINITY, 0)));
    double[] ones = new double[n];
    Arrays.fill(ones, 1);
    all.add(new Row(ones, 1, 1));
    int firstTarget = all.size();
    all.addAll(o.targets());
    int m = all.size();
    double[][] a = new double[m][];
    double[] rowLow = new double[m];
    double[] rowHigh = new double[m];
    for (int i = 0; i < m; i++) {
      double[] own = all.get(i).coefficients();
      a[i] = extra == 0 ? own : Arrays.copyOf(own, n + extra);
      rowLow[i] = all.get(i).low();
      rowHigh[i] = all.get(i).high();
      if (i >= rows.size() && i < rows.size() + o.floors().size()) {
        a[i][greatest] = -1;
      }
      if (i >= firstTarget) {
        int k = n + 2 * (i - firstTarget);
        a[i][k] = -1;
        a[i][k + 1] = 1;
      }
    }
    double[] cost = Arrays.copyOf(o.cost(), n + extra);
    double[] lo = Arrays.copyOf(low, n + extra);
    double[] hi = Arrays.copyOf(high, n + extra);
    Arrays.fill(cost, n, greatest, 100);
    Arrays.fill(hi, n, greatest, 1e3);
    if (floored) {
      cost[greatest] = 1;
      lo[greatest] = -GREATEST_FLOOR;
      hi[greatest] = GREATEST_FLOOR;
    }
    return LinearProgram.of(cost, a, rowLow, rowHigh, lo, hi);
  }

  /** The mass fractions in a solution of {@link #model}; dust is no use of a material. */
  double[] fractions(double[] x) {
    double[] w = Arrays.copyOf(x, columns.size());
    for (int j = 0; j < w.length; j++) {
      w[j] = w[j] > DUST ? w[j] : 0;
    }
    return w;
  }
}
