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

  private static int distance(String a, String b) {
    int[] above = new int[b.length() + 1];
    for (int j = 0; j <= b.length(); j++) {
      above[j] = j;
    }
    for (int i = 1; i <= a.length(); i++) {
      int[] here = new int[b.length() + 1];
      here[0] = i;
      for (int j = 1; j <= b.length(); j++) {
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        here[j] = Math.min(above[j - 1] + change, 1 + Math.min(above[j], here[j - 1]));
      }
      above = here;
    }
    return above[b.length()];
  }
}
