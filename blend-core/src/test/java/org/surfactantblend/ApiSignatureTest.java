package org.surfactantblend;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.lang.reflect.AnnotatedType;
import java.lang.reflect.Constructor;
import java.lang.reflect.Executable;
import java.lang.reflect.Field;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.lang.reflect.Type;
import java.lang.reflect.TypeVariable;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/**
 * Every public and protected member outside {@code optimise}, one a line, is the same as in {@code
 * .api/blend-core.txt}. A change on purpose is renewed with
 *
 * <pre>mvn -B -pl blend-core test -Dtest=ApiSignatureTest -Dapi.renew=true</pre>
 */
class ApiSignatureTest {
  private static final Path KEPT = Path.of("..", ".api", "blend-core.txt");
  private static final Path SOURCES = Path.of("src", "main", "java");
  private static final String RENEW =
      "mvn -B -pl blend-core test -Dtest=ApiSignatureTest -Dapi.renew=true";

  @Test
  void thePublicInterfaceIsTheOneThatIsKept() throws IOException {
    List<String> now = signatures(SOURCES);
    assertTrue(now.size() > 500, () -> "only " + now.size() + " lines found under " + SOURCES);
    assertEquals(
        List.of(),
        now.stream().filter(line -> line.contains(".optimise.")).toList(),
        "the programme room is not part of the public interface");
    if (Boolean.getBoolean("api.renew")) {
      Files.writeString(KEPT, String.join("\n", now) + "\n", StandardCharsets.UTF_8);
    }
    assertTrue(Files.exists(KEPT), () -> KEPT + " is not there; make it with: " + RENEW);
    List<String> kept = Files.readAllLines(KEPT, StandardCharsets.UTF_8);
    assertEquals("", difference(kept, now));
  }

  @Test
  void aChangeIsToldLineByLine() {
    assertEquals("", difference(List.of("A a()", "A b()"), List.of("A a()", "A b()")));
    String told = difference(List.of("A a()", "A b()"), List.of("A a()", "A c()"));
    assertTrue(told.contains("  gone: A b()\n"), told);
    assertTrue(told.contains("  new:  A c()\n"), told);
    assertTrue(told.contains(RENEW), told);
    assertFalse(told.contains("A a()"), told);
  }

  /** Members that a caller can see and the comparison has to see. */
  @Test
  void signaturesHoldTypesExceptionsAndNulls() {
    List<String> lines = new ArrayList<>();
    describe(Sample.class, lines);
    String name = Sample.class.getName();
    assertEquals(
        List.of(
            "public abstract static class " + name + "<T extends java.lang.Number>",
            name + ": protected " + name + "()",
            name + ": public final int limit",
            name
                + ": public static <U> java.util.List<U> of(@Nullable java.lang.Object,"
                + " java.lang.String...)"
                + " throws java.io.IOException"),
        lines);
  }

  /** For the test above. */
  public abstract static class Sample<T extends Number> {
    /** Seen. */
    public final int limit = Integer.parseInt("1");

    /** Seen. */
    protected Sample() {}

    /** Seen. */
    public static <U> List<U> of(@Nullable Object first, String... more) throws IOException {
      if (first == null && more.length > 0) {
        throw new IOException();
      }
      return List.of();
    }

    int hidden() {
      return limit;
    }
  }

  private static String difference(Collection<String> kept, Collection<String> now) {
    Set<String> gone = new TreeSet<>(kept);
    gone.removeAll(now);
    Set<String> fresh = new TreeSet<>(now);
    fresh.removeAll(kept);
    if (gone.isEmpty() && fresh.isEmpty()) {
      return "";
    }
    StringBuilder text = new StringBuilder("The public interface differs from ").append(KEPT);
    text.append(":\n");
    gone.forEach(line -> text.append("  gone: ").append(line).append('\n'));
    fresh.forEach(line -> text.append("  new:  ").append(line).append('\n'));
    text.append("A line that is gone or changed breaks programs that use it. If it is meant:\n  ");
    return text.append(RENEW).append('\n').toString();
  }

  private static List<String> signatures(Path sources) throws IOException {
    List<String> lines = new ArrayList<>();
    try (Stream<Path> files = Files.walk(sources)) {
      files
          .map(file -> sources.relativize(file).toString().replace('\\', '/'))
          .filter(name -> name.endsWith(".java") && !name.endsWith("-info.java"))
          .filter(name -> !name.contains("/optimise/"))
          .map(name -> name.substring(0, name.length() - 5).replace('/', '.'))
          .sorted()
          .forEach(name -> describe(load(name), lines));
    }
    return lines;
  }

  private static Class<?> load(String name) {
    try {
      return Class.forName(name, false, ApiSignatureTest.class.getClassLoader());
    } catch (ClassNotFoundException e) {
      throw new AssertionError(name + " is not compiled", e);
    }
  }

  private static void describe(Class<?> type, List<String> lines) {
    if (!seen(type.getModifiers())) {
      return;
    }
    lines.add(heading(type));
    Set<String> members = new TreeSet<>();
    for (Class<?> holder = type;
        holder != null && (holder == type || !seen(holder.getModifiers()));
        holder = holder.getSuperclass()) {
      for (Field field : holder.getDeclaredFields()) {
        if (seen(field.getModifiers()) && !field.isSynthetic()) {
          members.add(
              modifiers(field.getModifiers())
                  + name(field.getAnnotatedType())
                  + " "
                  + field.getName());
        }
      }
      for (Method method : holder.getDeclaredMethods()) {
        if (seen(method.getModifiers()) && !method.isSynthetic() && !ofEveryObject(type, method)) {
          members.add(
              modifiers(method.getModifiers() & ~(Modifier.TRANSIENT | Modifier.SYNCHRONIZED))
                  + (method.isDefault() ? "default " : "")
                  + variables(method.getTypeParameters())
                  + name(method.getAnnotatedReturnType())
                  + " "
                  + method.getName()
                  + parameters(method));
        }
      }
    }
    for (Constructor<?> constructor : type.getDeclaredConstructors()) {
      if (seen(constructor.getModifiers()) && !constructor.isSynthetic()) {
        members.add(
            modifiers(constructor.getModifiers() & ~Modifier.TRANSIENT)
                + type.getName()
                + parameters(constructor));
      }
    }
    members.forEach(member -> lines.add(type.getName() + ": " + member));
    Class<?>[] inner = type.getDeclaredClasses();
    Arrays.sort(inner, (one, other) -> one.getName().compareTo(other.getName()));
    for (Class<?> nested : inner) {
      describe(nested, lines);
    }
  }

  private static String heading(Class<?> type) {
    String kind =
        type.isAnnotation()
            ? "@interface"
            : type.isInterface()
                ? "interface"
                : type.isEnum() ? "enum" : type.isRecord() ? "record" : "class";
    int shown = type.getModifiers() & ~Modifier.INTERFACE;
    if (type.isInterface()) {
      shown &= ~(Modifier.ABSTRACT | Modifier.STATIC);
    } else if (type.isEnum() || type.isRecord()) {
      shown &= ~(Modifier.FINAL | Modifier.ABSTRACT | Modifier.STATIC);
    }
    String text =
        modifiers(shown)
            + (type.isSealed() ? "sealed " : "")
            + kind
            + " "
            + type.getName()
            + variables(type.getTypeParameters()).trim();
    if (type.isRecord()) {
      text +=
          Arrays.stream(type.getRecordComponents())
              .map(part -> name(part.getAnnotatedType()) + " " + part.getName())
              .collect(Collectors.joining(", ", "(", ")"));
    }
    if (kind.equals("class") && type.getSuperclass() != Object.class) {
      text += " extends " + type.getGenericSuperclass().getTypeName();
    }
    text += list(type.isInterface() ? " extends " : " implements ", type.getGenericInterfaces());
    if (type.isSealed()) {
      text += list(" permits ", type.getPermittedSubclasses());
    }
    return text;
  }

  private static String list(String before, Type[] types) {
    return types.length == 0
        ? ""
        : Arrays.stream(types)
            .map(Type::getTypeName)
            .sorted()
            .collect(Collectors.joining(", ", before, ""));
  }

  private static boolean seen(int modifiers) {
    return Modifier.isPublic(modifiers) || Modifier.isProtected(modifiers);
  }

  private static boolean ofEveryObject(Class<?> type, Method method) {
    String name = method.getName();
    return name.equals("toString") && method.getParameterCount() == 0
        || name.equals("hashCode") && method.getParameterCount() == 0
        || name.equals("equals") && method.getParameterCount() == 1
        || type.isEnum() && (name.equals("values") || name.equals("valueOf"));
  }

  private static String modifiers(int modifiers) {
    return modifiers == 0 ? "" : Modifier.toString(modifiers) + " ";
  }

  private static String name(AnnotatedType type) {
    return (type.isAnnotationPresent(Nullable.class) ? "@Nullable " : "")
        + type.getType().getTypeName();
  }

  private static String parameters(Executable executable) {
    List<String> types =
        Arrays.stream(executable.getAnnotatedParameterTypes())
            .map(ApiSignatureTest::name)
            .collect(Collectors.toCollection(ArrayList::new));
    if (executable.isVarArgs()) {
      int last = types.size() - 1;
      types.set(last, types.get(last).replaceAll("\\[]$", "..."));
    }
    return types.stream().collect(Collectors.joining(", ", "(", ")"))
        + list(" throws ", executable.getGenericExceptionTypes());
  }

  private static String variables(TypeVariable<?>[] variables) {
    Function<TypeVariable<?>, String> one =
        variable -> {
          String bounds =
              Arrays.stream(variable.getBounds())
                  .filter(bound -> bound != Object.class)
                  .map(Type::getTypeName)
                  .collect(Collectors.joining(" & "));
          return variable.getName() + (bounds.isEmpty() ? "" : " extends " + bounds);
        };
    return variables.length == 0
        ? ""
        : Arrays.stream(variables).map(one).collect(Collectors.joining(", ", "<", "> "));
  }
}
