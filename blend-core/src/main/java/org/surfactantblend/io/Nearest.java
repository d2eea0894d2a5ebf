package org.surfactantblend.io;

import java.util.Collection;
import java.util.Locale;

/** The known word that a mistyped one most resembles. */
final class Nearest {
  private static final int LONGEST = 80;

  private Nearest() {}

  /** The nearest of the known words, or the empty text when none is near. */
  static String to(String found, Collection<String> known) {
    String probe = plain(found);
    if (probe.isEmpty() || probe.length() > LONGEST) {
      return "";
    }
    String best = "";
    int bestDistance = Math.max(1, probe.length() / 3) + 1;
    for (String word : known) {
      String candidate = plain(word);
      if (Math.abs(candidate.length() - probe.length()) >= bestDistance) {
        continue;
      }
      int distance = distance(probe, candidate);
      if (distance < bestDistance) {
        bestDistance = distance;
        best = word;
      }
    }
    return best;
  }

  private static String plain(String text) {
    return text.strip().toLowerCase(Locale.ROOT).replaceAll("[\\s_-]+", "");
  }

  /** Letters to add, drop, change or swap with their neighbour. */
  private static int distance(String a, String b) {
    int[][] d = new int[a.length() + 1][b.length() + 1];
    for (int i = 0; i <= a.length(); i++) {
      for (int j = 0; j <= b.length(); j++) {
        if (i == 0 || j == 0) {
          d[i][j] = i + j;
          continue;
        }
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        d[i][j] = Math.min(d[i - 1][j - 1] + change, 1 + Math.min(d[i - 1][j], d[i][j - 1]));
        if (i > 1
            && j > 1
            && a.charAt(i - 1) == b.charAt(j - 2)
            && a.charAt(i - 2) == b.charAt(j - 1)) {
          d[i][j] = Math.min(d[i][j], d[i - 2][j - 2] + 1);
        }
      }
    }
    return d[a.length()][b.length()];
  }
}
