package org.surfactantblend.optimise;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/**
 * A linear programme in which some variables are each either 0 or at least a minimum use, and the
 * set of those in use (the support) has to keep counts and pairs. Immutable once built.
 */
public final class SupportProblem {

  /** How many of some variables may and must be in use. */
  static final class Count {
    final int[] members;
    final int atLeast;
    final int atMost;

    Count(int[] members, int atLeast, int atMost) {
      this.members = members;
      this.atLeast = atLeast;
      this.atMost = atMost;
    }
  }

  final LinearProgram programme;

  /** The variables to choose from, ascending. All that follows counts by place in this list. */
  final int[] choosable;

  final double[] minimumUse;
  final double[] contribution;
  final int atLeast;
  final int atMost;
  final List<Count> counts;
  final int[] mustUse;
  final int[][] notTogether;

  /** For each member those that it needs, and those that need it. */
  final int[][] needs;

  final int[][] neededBy;

  /** Whether any pair is named at all. */
  final boolean hasPairs;

  private SupportProblem(Builder b) {
    programme = b.programme;
    choosable = b.choosable;
    minimumUse = b.minimumUse;
    contribution = b.contribution.clone();
    atLeast = b.atLeast;
    atMost = Math.min(b.atMost, b.choosable.length);
    counts = List.copyOf(b.counts);
    mustUse = b.mustUse.stream().mapToInt(Integer::intValue).toArray();
    notTogether = b.notTogether.clone();
    needs = b.needs.clone();
    neededBy = b.neededBy.clone();
    hasPairs = b.hasPairs;
  }

  /**
   * Starts a problem.
   *
   * @param programme the programme; the variables to choose from have lower bound 0
   * @param choosable indices of the variables to choose from, each once
   * @param minimumUse for each of them, in the same order, the least amount when in use, above 0
   * @throws IllegalArgumentException if an index or a number is not as said
   */
  public static Builder of(LinearProgram programme, int[] choosable, double[] minimumUse) {
    return new Builder(
        Objects.requireNonNull(programme, "programme"),
        Objects.requireNonNull(choosable, "choosable"),
        Objects.requireNonNull(minimumUse, "minimumUse"));
  }

  private SupportProblem(SupportProblem other, LinearProgram programme) {
    this.programme = programme;
    choosable = other.choosable;
    minimumUse = other.minimumUse;
    contribution = other.contribution;
    atLeast = other.atLeast;
    atMost = other.atMost;
    counts = other.counts;
    mustUse = other.mustUse;
    notTogether = other.notTogether;
    needs = other.needs;
    neededBy = other.neededBy;
    hasPairs = other.hasPairs;
  }

  /** The same choice with other costs. The array is kept. */
  public SupportProblem withCost(double[] cost) {
    return new SupportProblem(this, programme.withCost(cost));
  }

  /** The same choice with other rows, costs and upper bounds; the same variables. */
  SupportProblem with(LinearProgram changed) {
    return new SupportProblem(this, changed);
  }

  private static final int[] NO_PLACES = {};

  private static int[][] noPairs(int size) {
    int[][] lists = new int[size][];
    Arrays.fill(lists, NO_PLACES);
    return lists;
  }

  /** The ascending list with one member more, unless it is there already. */
  private static int[] with(int[] places, int one) {
    int at = Arrays.binarySearch(places, one);
    if (at >= 0) {
      return places;
    }
    int[] longer = Arrays.copyOf(places, places.length + 1);
    System.arraycopy(places, -1 - at, longer, -at, places.length + 1 + at);
    longer[-1 - at] = one;
    return longer;
  }

  /** Collects the counts and pairs. Indices are those of the programme's variables. */
  public static final class Builder {

    private final LinearProgram programme;
    private final int[] choosable;
    private final double[] minimumUse;
    private final double[] contribution;
    private final int[] place;
    private int atLeast = 0;
    private int atMost = Integer.MAX_VALUE;
    private final List<Count> counts = new ArrayList<>();
    private final List<Integer> mustUse = new ArrayList<>();
    private final int[][] notTogether;
    private final int[][] needs;
    private final int[][] neededBy;
    private boolean hasPairs;

    private Builder(LinearProgram programme, int[] choosable, double[] minimumUse) {
      this.programme = programme;
      int n = programme.variables();
      if (minimumUse.length != choosable.length) {
        throw new IllegalArgumentException(
            "minimumUse has length " + minimumUse.length + "; allowed: " + choosable.length);
      }
      double[] least = new double[n];
      place = new int[n];
      for (int s = 0; s < choosable.length; s++) {
        int j = choosable[s];
        if (j < 0 || j >= n) {
          throw new IllegalArgumentException(
              "choosable[" + s + "] is " + j + "; allowed: 0 to " + (n - 1));
        }
        if (least[j] != 0) {
          throw new IllegalArgumentException("choosable holds " + j + " twice");
        }
        if (!(minimumUse[s] > 0 && minimumUse[s] < Double.POSITIVE_INFINITY)) {
          throw new IllegalArgumentException(
              "minimumUse[" + s + "] is " + minimumUse[s] + "; allowed: above 0");
        }
        if (programme.lower(j) != 0) {
          throw new IllegalArgumentException(
              "variable "
                  + j
                  + " to choose has lower bound "
                  + programme.lower(j)
                  + "; allowed: 0");
        }
        least[j] = minimumUse[s];
      }
      this.choosable = choosable.clone();
      Arrays.sort(this.choosable);
      Arrays.fill(place, -1);
      this.minimumUse = new double[choosable.length];
      this.contribution = new double[choosable.length];
      Arrays.fill(contribution, 1);
      for (int s = 0; s < choosable.length; s++) {
        place[this.choosable[s]] = s;
        this.minimumUse[s] = least[this.choosable[s]];
      }
      notTogether = noPairs(choosable.length);
      needs = noPairs(choosable.length);
      neededBy = noPairs(choosable.length);
    }

    /** At most this many in use, 0 or more. */
    public Builder atMost(int count) {
      atMost = checkCount(count);
      return this;
    }

    /** At least this many in use, 0 or more. */
    public Builder atLeast(int count) {
      atLeast = checkCount(count);
      return this;
    }

    /** Exactly this many in use, 0 or more. */
    public Builder exactly(int count) {
      return atLeast(count).atMost(count);
    }

    /** Of these at least and at most so many in use. */
    public Builder count(int[] members, int least, int most) {
      checkCount(least);
      if (most < least) {
        throw new IllegalArgumentException("most is " + most + "; allowed: " + least + " or more");
      }
      int[] places = new int[members.length];
      for (int i = 0; i < members.length; i++) {
        places[i] = placeOf(members[i]);
      }
      Arrays.sort(places);
      int distinct = 0;
      for (int s : places) {
        if (distinct == 0 || places[distinct - 1] != s) {
          places[distinct++] = s;
        }
      }
      places = Arrays.copyOf(places, distinct);
      counts.add(new Count(places, least, most));
      return this;
    }

    /** This one is in use. */
    public Builder mustUse(int variable) {
      mustUse.add(placeOf(variable));
      return this;
    }

    /** These two are never in use together. */
    public Builder notTogether(int one, int other) {
      int a = placeOf(one);
      int b = placeOf(other);
      if (a == b) {
        throw new IllegalArgumentException("notTogether names " + one + " twice");
      }
      notTogether[a] = with(notTogether[a], b);
      notTogether[b] = with(notTogether[b], a);
      hasPairs = true;
      return this;
    }

    /** The one is in use only if the other is. */
    public Builder onlyIf(int one, int other) {
      int a = placeOf(one);
      int b = placeOf(other);
      needs[a] = with(needs[a], b);
      neededBy[b] = with(neededBy[b], a);
      hasPairs = true;
      return this;
    }

    /**
     * How much a unit of a variable to choose counts when the search picks the next one to decide
     * on; 1 unless said. It changes only the work, never the answer.
     */
    public Builder contribution(int variable, double perUnit) {
      if (!(perUnit >= 0 && perUnit < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("perUnit is " + perUnit + "; allowed: 0 or more");
      }
      contribution[placeOf(variable)] = perUnit;
      return this;
    }

    /** The problem. */
    public SupportProblem build() {
      return new SupportProblem(this);
    }

    private int placeOf(int variable) {
      if (variable < 0 || variable >= place.length || place[variable] < 0) {
        throw new IllegalArgumentException(
            "variable is " + variable + "; allowed: one of those to choose from");
      }
      return place[variable];
    }

    private static int checkCount(int count) {
      if (count < 0) {
        throw new IllegalArgumentException("count is " + count + "; allowed: 0 or more");
      }
      return count;
    }
  }
}
