package org.surfactantblend.solve;

import java.util.function.Function;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;

/** The answer to a brief: a blend, or the reason why there is none. */
public sealed interface BlendResult permits SolvedBlend, NoBlend {
  /**
   * What was asked.
   *
   * @return the brief
   */
  Brief brief();

  /**
   * The whole answer in at most 80 columns.
   *
   * @return several lines
   */
  String summary();

  /**
   * Whether there is a blend.
   *
   * @return true for a {@link SolvedBlend}
   */
  default boolean isSolved() {
    return this instanceof SolvedBlend;
  }

  /**
   * The blend.
   *
   * @return the blend
   * @throws NoBlendException if there is none; its text is {@link #summary()}
   */
  default Blend orElseThrow() {
    return fold(
        SolvedBlend::blend,
        none -> {
          throw new NoBlendException(none);
        });
  }

  /**
   * Goes on with whichever it is.
   *
   * @param solved what to do with a blend
   * @param infeasible what to do without one
   * @param <T> what comes out
   * @return what the function taken gives
   */
  default <T> T fold(
      Function<? super SolvedBlend, ? extends T> solved,
      Function<? super NoBlend, ? extends T> infeasible) {
    if (this instanceof SolvedBlend s) {
      return solved.apply(s);
    }
    return infeasible.apply((NoBlend) this);
  }
}
