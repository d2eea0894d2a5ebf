package org.surfactantblend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.lang.reflect.Array;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.Parameter;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.Type;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.surfactantblend.acidity.AcidDose;
import org.surfactantblend.acidity.LotCalibration;
import org.surfactantblend.acidity.Meter;
import org.surfactantblend.acidity.PhReading;
import org.surfactantblend.acidity.StartingPh;
import org.surfactantblend.acidity.Titrant;
import org.surfactantblend.aqueous.AcidBase;
import org.surfactantblend.aqueous.ChargeBalance;
import org.surfactantblend.aqueous.Conditions;
import org.surfactantblend.aqueous.Solution;
import org.surfactantblend.batch.BatchOrder;
import org.surfactantblend.batch.BatchSheet;
import org.surfactantblend.blend.Blend;
import org.surfactantblend.brief.Brief;
import org.surfactantblend.conformance.Conformance;
import org.surfactantblend.conformance.KnownDeviation;
import org.surfactantblend.io.Input;
import org.surfactantblend.material.CertificateOfAnalysis;
import org.surfactantblend.material.ChargeClass;
import org.surfactantblend.material.Material;
import org.surfactantblend.material.MaterialTable;
import org.surfactantblend.mildness.BlendedIndex;
import org.surfactantblend.mildness.InteractionTable;
import org.surfactantblend.problem.Place;
import org.surfactantblend.problem.Problem;
import org.surfactantblend.problem.ProblemsException;
import org.surfactantblend.quantity.Mass;
import org.surfactantblend.quantity.Range;
import org.surfactantblend.quantity.Scale;
import org.surfactantblend.solve.BlendResult;
import org.surfactantblend.solve.NoBlend;
import org.surfactantblend.solve.NoBlendException;
import org.surfactantblend.swap.SupplierSwap;

/**
 * Every public constructor and method of every public class, called with null, NaN, infinities,
 * empty and huge values: nothing but the documented exceptions leaves, each with a message.
 */
class MisuseTest {
  private static final Path SOURCES = Path.of("src", "main", "java");
  private static final String ROOT = "org.surfactantblend";

  /** Calls with random picks from the palettes, beside one bad argument at a time. */
  private static final int RANDOM_CALLS = 40;

  private static final Duration LONGEST = Duration.ofSeconds(120);

  /** What else a method says in its documentation that it throws. */
  private static final Map<String, Class<? extends Exception>> DOCUMENTED =
      Map.of(
          "aqueous.Solution.ph", ArithmeticException.class,
          "aqueous.ChargeBalance.ph", ArithmeticException.class,
          "aqueous.ChargeBalance.phNear", ArithmeticException.class,
          "brief.Brief.withRequirement", IndexOutOfBoundsException.class);

  private static final Pattern ADDRESS =
      Pattern.compile("org\\.surfactantblend\\.(?!MisuseTest)[\\w.$]+@[0-9a-f]+");

  private static final String HUGE = "a".repeat(100_000);

  private final Map<Class<?>, List<Object>> samples = new LinkedHashMap<>();

  MisuseTest() {
    MaterialTable table = Blends.starterTable().priced(Blends.demoPrices());
    Material betaine = table.get("cocamidopropyl-betaine-30");
    Blend blend =
        Blend.named("face wash")
            .line(betaine, 15)
            .line(table.get("decyl-glucoside-52"), 8)
            .line(table.get("sodium-chloride"), 1)
            .upToHundredWith(table.get("water"));
    Brief brief =
        Brief.named("face wash")
            .totalActive(9, 0.2)
            .startingPh(6, 7.5)
            .choosingFrom("cocamidopropyl-betaine-30", "decyl-glucoside-52")
            .build();
    BlendResult none =
        Blends.solve(brief.toBuilder().share(ChargeClass.ANIONIC, 50, 60).build(), table);
    CertificateOfAnalysis lot =
        CertificateOfAnalysis.ofLot("L1").activePercent(30.4).ph(5.2, 10).build();
    AcidDose dose =
        AcidDose.of(blend).to(5.5).with(Titrant.citricAcid(20)).forBatch(Mass.grams(500));
    Problem problem = Problem.error("code", Place.in("file", "path"), "found", "allowed", "");
    SupplierSwap swap =
        SupplierSwap.in(blend).replace(betaine.id()).with(lot.appliedTo(betaine).value());
    sample(
        table,
        betaine,
        blend,
        brief,
        Blends.solve(brief, table),
        none,
        lot,
        dose,
        dose.begin(Meter.accurateTo(0.05)).reading(8.6).dosed(1).reading(7.4),
        PhReading.of(6.5),
        LotCalibration.of(
            AcidDose.of(
                    Blend.named("20 g of the lot in water")
                        .line(table.get("decyl-glucoside-52"), 20)
                        .upToHundredWith(table.get("water")))
                .to(5.5)
                .with(Titrant.citricAcid(20))
                .forBatch(Mass.grams(100))
                .begin(Meter.accurateTo(0.05))
                .reading(11.6)
                .dosed(0.5)
                .reading(9.4)
                .dosed(0.3)
                .reading(7.2)),
        swap,
        swap.report(),
        StartingPh.of(blend),
        BatchSheet.of(blend).mass(Mass.kilograms(5)).on(Scale.of(0.1, 6000)),
        BatchSheet.of(blend),
        BatchOrder.density(1.02).container("bottle", 250, 12, 1).build(),
        Conformance.of(betaine),
        new KnownDeviation("a", "b", "c"),
        new ProblemsException(List.of(problem)),
        Input.text("name", "text"),
        Solution.water().weak(AcidBase.acid("acid", 4.8), 0.1),
        ChargeBalance.at(Conditions.standard(), 0.1).strongCharge(0.01).build(),
        Range.of(1, 2, 3),
        assertThrows(NoBlendException.class, none::orElseThrow),
        InteractionTable.EMPTY,
        BlendedIndex.ofChargeVariance(new double[] {60, 30}, new double[] {-1, 1}, 10),
        problem);
    harvest();
  }

  private void sample(Object... objects) {
    for (Object o : objects) {
      if (o == null || samples.getOrDefault(o.getClass(), List.of()).size() >= 2) {
        continue;
      }
      if (o.getClass().getName().startsWith(ROOT) || o.getClass().isEnum()) {
        samples.computeIfAbsent(o.getClass(), k -> new ArrayList<>()).add(o);
      } else if (o instanceof Collection<?> all) {
        all.stream().limit(2).forEach(this::sample);
      } else if (o instanceof Map<?, ?> all) {
        all.values().stream().limit(2).forEach(this::sample);
      } else if (o instanceof Optional<?> maybe) {
        maybe.ifPresent(this::sample);
      }
    }
  }

  /** Fills the samples with what methods of good samples return, until nothing new comes. */
  private void harvest() {
    Random random = new Random(1);
    for (int round = 0; round < 4; round++) {
      for (Class<?> c : publicClasses()) {
        if (c.isEnum()) {
          sample(c.getEnumConstants());
          continue;
        }
        for (Executable e : callables(c)) {
          for (Object target : targets(c, e)) {
            for (int attempt = 0; attempt < 6; attempt++) {
              try {
                sample(call(e, target, good(e, random)));
              } catch (ReflectiveOperationException refused) {
                // A method that refuses these arguments has nothing to give.
              }
            }
          }
        }
      }
    }
  }

  private static List<Class<?>> publicClasses() {
    List<Class<?>> found = new ArrayList<>();
    try (Stream<Path> files = Files.walk(SOURCES)) {
      for (Path p : files.sorted().toList()) {
        String name = SOURCES.relativize(p).toString().replace(java.io.File.separatorChar, '.');
        if (name.endsWith(".java") && !name.endsWith("-info.java")) {
          Class<?> c = Class.forName(name.substring(0, name.length() - 5));
          addPublic(c, found);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (ClassNotFoundException e) {
      throw new IllegalStateException(e);
    }
    return found;
  }

  private static void addPublic(Class<?> c, List<Class<?>> found) {
    // The optimiser works on plain arrays for other rooms and is not part of the public API.
    if (Modifier.isPublic(c.getModifiers()) && !c.getName().startsWith(ROOT + ".optimise")) {
      found.add(c);
      for (Class<?> inner : c.getDeclaredClasses()) {
        addPublic(inner, found);
      }
    }
  }

  private static List<Executable> callables(Class<?> c) {
    List<Executable> all = new ArrayList<>(List.of(c.getConstructors()));
    for (Method m : c.getMethods()) {
      if (m.getDeclaringClass().getName().startsWith(ROOT) && !m.isBridge()) {
        all.add(m);
      }
    }
    all.sort(java.util.Comparator.comparing(Executable::toString));
    return all;
  }

  private List<Object> targets(Class<?> c, Executable e) {
    if (e instanceof Constructor || Modifier.isStatic(e.getModifiers())) {
      return Collections.singletonList(null);
    }
    return of(c);
  }

  private List<Object> of(Class<?> c) {
    List<Object> all = new ArrayList<>();
    samples.forEach(
        (k, v) -> {
          if (c.isAssignableFrom(k)) {
            all.addAll(v);
          }
        });
    return all;
  }

  private static Object call(Executable e, Object target, Object[] arguments)
      throws ReflectiveOperationException {
    if (e instanceof Constructor<?> c) {
      return c.newInstance(arguments);
    }
    // Builders are changed by a call; a fresh one cannot be had for all, so they are used up.
    return ((Method) e).invoke(target, arguments);
  }

  private Object[] good(Executable e, Random random) {
    Parameter[] p = e.getParameters();
    Object[] arguments = new Object[p.length];
    for (int i = 0; i < p.length; i++) {
      List<Object> values = goodValues(p[i].getParameterizedType());
      arguments[i] = values.isEmpty() ? null : values.get(random.nextInt(values.size()));
    }
    return arguments;
  }

  private List<Object> goodValues(Type type) {
    Class<?> c = raw(type);
    if (c == double.class || c == Double.class) {
      return List.of(5.0, 1.0, 20.0, 0.5, 60.0);
    } else if (c == int.class || c == Integer.class) {
      return List.of(1, 2, 5);
    } else if (c == long.class) {
      return List.of(1L);
    } else if (c == boolean.class) {
      return List.of(true, false);
    } else if (c == String.class || c == CharSequence.class) {
      return List.of("cocamidopropyl-betaine-30", "water", "Sodium Chloride", "word");
    } else if (c == OptionalDouble.class) {
      return List.of(OptionalDouble.of(350));
    } else if (c == Optional.class) {
      return List.of(Optional.empty());
    } else if (c == LocalDate.class) {
      return List.of(LocalDate.of(2026, 3, 1));
    } else if (c == Path.class) {
      return List.of(Path.of("pom.xml"));
    } else if (c == Reader.class) {
      return List.of(new StringReader("id\nx\n"));
    } else if (c == InputStream.class) {
      return List.of(new ByteArrayInputStream(new byte[] {105, 100, 10}));
    } else if (c == DoubleUnaryOperator.class) {
      return List.of((DoubleUnaryOperator) x -> 7 - x);
    } else if (c == ToDoubleFunction.class) {
      return List.of((ToDoubleFunction<Object>) x -> 1);
    } else if (c == Function.class) {
      return List.of((Function<Object, Object>) x -> 1);
    } else if (c == Object.class) {
      return List.of("word", 3);
    } else if (c.isArray()) {
      return goodArrays(c.getComponentType());
    } else if (Collection.class.isAssignableFrom(c)) {
      List<Object> inside = goodValues(argument(type, 0));
      return List.of(c == Set.class ? new LinkedHashSet<>(inside) : new ArrayList<>(inside));
    } else if (c == Map.class) {
      Map<Object, Object> map = new LinkedHashMap<>();
      List<Object> values = goodValues(argument(type, 1));
      if (!values.isEmpty()) {
        goodValues(argument(type, 0)).stream().limit(2).forEach(k -> map.put(k, values.get(0)));
      }
      return List.of(map);
    }
    return of(c);
  }

  private List<Object> goodArrays(Class<?> component) {
    List<Object> inside = goodValues(component);
    Object array = Array.newInstance(component, Math.min(2, inside.size()));
    for (int i = 0; i < Array.getLength(array); i++) {
      Array.set(array, i, inside.get(i));
    }
    return List.of(array);
  }

  private static Class<?> raw(Type type) {
    if (type instanceof ParameterizedType p) {
      return raw(p.getRawType());
    }
    return type instanceof Class<?> c ? c : Object.class;
  }

  private static Type argument(Type type, int i) {
    return type instanceof ParameterizedType p ? p.getActualTypeArguments()[i] : Object.class;
  }

  private List<Object> badValues(Type type) {
    Class<?> c = raw(type);
    List<Object> bad = new ArrayList<>();
    if (c == double.class) {
      bad.addAll(
          List.of(
              Double.NaN,
              Double.POSITIVE_INFINITY,
              Double.NEGATIVE_INFINITY,
              -0.0,
              0.0,
              -1.0,
              Double.MIN_VALUE,
              1e-9,
              14.0,
              100.0,
              1e9,
              Double.MAX_VALUE,
              -Double.MAX_VALUE));
    } else if (c == int.class) {
      bad.addAll(List.of(Integer.MIN_VALUE, -1, 0, 3, Integer.MAX_VALUE));
    } else if (c == long.class) {
      bad.addAll(List.of(Long.MIN_VALUE, -1L, 0L, Long.MAX_VALUE));
    } else if (c != boolean.class) {
      bad.add(null);
    }
    if (c == Double.class) {
      bad.addAll(List.of(Double.NaN, -1.0));
    } else if (c == String.class || c == CharSequence.class) {
      bad.addAll(List.of("", " \t", "nobody", "\u0000", "İı\uD800", "=1+1", HUGE));
    } else if (c == OptionalDouble.class) {
      bad.addAll(
          List.of(
              OptionalDouble.empty(),
              OptionalDouble.of(Double.NaN),
              OptionalDouble.of(Double.NEGATIVE_INFINITY)));
    } else if (c == LocalDate.class) {
      bad.addAll(List.of(LocalDate.MIN, LocalDate.MAX));
    } else if (c == Path.class) {
      bad.addAll(List.of(Path.of(""), Path.of("no", "such", "file"), Path.of("/")));
    } else if (c == Reader.class) {
      bad.addAll(List.of(new StringReader(""), Reader.nullReader()));
    } else if (c == InputStream.class) {
      bad.addAll(List.of(InputStream.nullInputStream(), new ByteArrayInputStream(new byte[] {-1})));
    } else if (c == DoubleUnaryOperator.class) {
      bad.add((DoubleUnaryOperator) x -> Double.NaN);
      bad.add((DoubleUnaryOperator) x -> 1);
    } else if (c.isArray()) {
      bad.add(Array.newInstance(c.getComponentType(), 0));
      for (Object inside : badValues(c.getComponentType())) {
        Object array = Array.newInstance(c.getComponentType(), 1);
        Array.set(array, 0, inside);
        bad.add(array);
      }
    } else if (Collection.class.isAssignableFrom(c)) {
      bad.add(c == Set.class ? Set.of() : List.of());
      for (Object inside : badValues(argument(type, 0))) {
        List<Object> one = new ArrayList<>();
        one.add(inside);
        bad.add(c == Set.class ? new LinkedHashSet<>(one) : one);
      }
      bad.add(
          c == Set.class
              ? new LinkedHashSet<>(goodValues(argument(type, 0)))
              : Collections.nCopies(
                  500, goodValues(argument(type, 0)).stream().findFirst().orElse(null)));
    } else if (c == Map.class) {
      bad.add(Map.of());
      for (Object key : badValues(argument(type, 0))) {
        Map<Object, Object> one = new LinkedHashMap<>();
        one.put(key, goodValues(argument(type, 1)).stream().findFirst().orElse(null));
        bad.add(one);
      }
      for (Object value : badValues(argument(type, 1))) {
        Map<Object, Object> one = new LinkedHashMap<>();
        one.put(goodValues(argument(type, 0)).stream().findFirst().orElse(null), value);
        bad.add(one);
      }
    }
    return bad;
  }

  @Test
  void thereIsASampleOfEveryClass() {
    Set<String> without = new TreeSet<>();
    for (Class<?> c : publicClasses()) {
      boolean needed =
          Arrays.stream(c.getMethods())
              .anyMatch(
                  m ->
                      m.getDeclaringClass().getName().startsWith(ROOT)
                          && !Modifier.isStatic(m.getModifiers()));
      if (needed && of(c).isEmpty()) {
        without.add(c.getName());
      }
    }
    assertEquals(Set.of(), without);
    assertTrue(samples.containsKey(NoBlend.class));
  }

  @Test
  void everyObjectSaysWhatItIs() {
    Set<String> wrong = new TreeSet<>();
    samples.forEach(
        (c, objects) ->
            objects.stream()
                .flatMap(o -> printed(o).stream())
                .filter(text -> text.isBlank() || ADDRESS.matcher(text).find())
                .forEach(text -> wrong.add(c.getName() + ": " + text)));
    assertEquals("", String.join("\n", wrong));
  }

  private static Optional<String> printed(Object o) {
    try {
      return Optional.of(o.toString());
    } catch (NullPointerException | IllegalArgumentException madeOfNonsense) {
      return Optional.empty();
    }
  }

  @TestFactory
  Stream<DynamicTest> nothingButDocumentedExceptionsLeaves() {
    return publicClasses().stream()
        .filter(c -> !callables(c).isEmpty())
        .map(c -> dynamicTest(c.getName().substring(ROOT.length() + 1), () -> misuse(c)));
  }

  private void misuse(Class<?> c) {
    Set<String> wrong = new TreeSet<>();
    assertTimeoutPreemptively(
        LONGEST,
        () -> {
          for (Executable e : callables(c)) {
            Random random = new Random(e.toString().hashCode());
            for (Object target : targets(c, e)) {
              for (int i = 0; i < e.getParameterCount(); i++) {
                for (Object bad : badValues(e.getGenericParameterTypes()[i])) {
                  Object[] arguments = good(e, random);
                  arguments[i] = bad;
                  attempt(e, target, arguments, wrong);
                }
              }
              for (int n = 0; n < RANDOM_CALLS; n++) {
                Object[] arguments = good(e, random);
                for (int i = 0; i < arguments.length; i++) {
                  List<Object> bad = badValues(e.getGenericParameterTypes()[i]);
                  if (!bad.isEmpty() && random.nextBoolean()) {
                    arguments[i] = bad.get(random.nextInt(bad.size()));
                  }
                }
                attempt(e, target, arguments, wrong);
              }
            }
          }
        },
        () -> "did not come to an end: " + c);
    assertEquals("", String.join("\n", wrong));
  }

  private static void attempt(Executable e, Object target, Object[] arguments, Set<String> wrong) {
    long start = System.nanoTime();
    try {
      call(e, target, arguments);
    } catch (InvocationTargetException thrown) {
      Throwable t = thrown.getCause();
      if (!documented(e, arguments, t)) {
        wrong.add(
            nameOf(e)
                + " threw "
                + t
                + " at "
                + (t.getStackTrace().length == 0 ? "" : t.getStackTrace()[0])
                + " for "
                + shown(arguments));
      }
    } catch (ReflectiveOperationException | IllegalArgumentException x) {
      wrong.add(e + " cannot be called: " + x);
    }
    if (System.nanoTime() - start > 20_000_000_000L) {
      wrong.add(e + " took long for " + shown(arguments));
    }
  }

  private static String shown(Object[] arguments) {
    StringBuilder text = new StringBuilder();
    for (Object a : arguments) {
      String one =
          a == null
              ? "null"
              : a.getClass().isArray()
                  ? a.getClass().getSimpleName() + Array.getLength(a)
                  : a instanceof Number || a instanceof String || a instanceof Collection
                      ? a.toString()
                      : a.getClass().getSimpleName();
      text.append(one, 0, Math.min(60, one.length())).append(" | ");
    }
    return text.toString();
  }

  /**
   * What the house rules allow to leave a public method. A null inside a collection is refused by
   * the JDK's own copies, and a null that code compiled hot runs into by the machine itself, both
   * without words; every other exception has a message.
   */
  private static boolean documented(Executable e, Object[] arguments, Throwable t) {
    boolean told = t.getMessage() != null && !t.getMessage().isBlank();
    if (t.getClass() == NullPointerException.class) {
      return told
          || t.getStackTrace().length == 0
          || Arrays.stream(arguments).anyMatch(MisuseTest::holdsNull);
    }
    if (t.getClass() == IllegalArgumentException.class
        || t.getClass() == IllegalStateException.class
        || t.getClass() == NoSuchElementException.class
        || t.getClass().getName().startsWith(ROOT)) {
      return told;
    }
    return told && DOCUMENTED.getOrDefault(nameOf(e), Exception.class) == t.getClass()
        || t instanceof IOException && nameOf(e).startsWith("io.");
  }

  private static boolean holdsNull(Object argument) {
    if (argument instanceof Collection<?> all) {
      return all.stream().anyMatch(x -> x == null);
    } else if (argument instanceof Map<?, ?> map) {
      return holdsNull(map.keySet()) || holdsNull(map.values());
    }
    return argument instanceof Object[] array && holdsNull(Arrays.asList(array));
  }

  private static String nameOf(Executable e) {
    return e.getDeclaringClass().getName().substring(ROOT.length() + 1)
        + (e instanceof Constructor ? "" : "." + e.getName());
  }
}
