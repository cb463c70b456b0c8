package org.tareline;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noMethods;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.AccessTarget.CodeUnitAccessTarget;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.lang.reflect.Method;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.Aware;
import org.springframework.core.ResolvableType;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.Repository;
import org.springframework.modulith.ApplicationModule;
import org.springframework.modulith.core.ApplicationModules;

/**
 * The arrows between packages and the rules inside them. Each rule is also held against {@code
 * astray}, where it must find the breaches made for it.
 */
class ArchitectureTests {

  private static final JavaClasses OURS =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("org.tareline");
  private static final JavaClasses ASTRAY = new ClassFileImporter().importPackages("astray");

  /** Each package may use only what stands before it, so that no circle can form. */
  private static final List<String> ORDER =
      List.of(
          "units",
          "evidence",
          "rollup",
          "cutting",
          "statics",
          "provisions",
          "site",
          "ledger",
          "weighing",
          "material",
          "part",
          "rig",
          "trip",
          "label",
          "bench",
          "exchange");

  /** The rules, each over the packages under a root, with the breaches it must find astray. */
  enum Rule {
    THE_CORE_USES_ONLY_THE_JDK_AND_ITSELF(
        ArchitectureTests::coreUsesOnlyTheJdkAndItself, "Loose.noted()", "Undeclared.helper"),
    THE_CORE_IS_TOLD_ITS_LANGUAGE_ZONE_AND_TIME(
        ArchitectureTests::coreIsToldItsLanguageZoneAndTime,
        "java.lang.String.format(java.lang.String, [Ljava.lang.Object;)",
        "java.lang.String.toLowerCase()",
        "java.time.Instant.now()"),
    NO_CIRCLES(
        root -> slices().matching(root + ".(**)").should().beFreeOfCycles(), "rig", "rig.web"),
    PAGES_AND_API_NEVER_MEET(
        root ->
            noClasses()
                .that()
                .resideInAPackage(root + ".*.web..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage(root + ".*.api.."),
        "RigPage.resource"),
    THE_API_NEVER_SEES_PAGES(
        root ->
            noClasses()
                .that()
                .resideInAPackage(root + ".*.api..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage(root + ".*.web.."),
        "RigResource.page"),
    A_BASE_KNOWS_NEITHER_ITS_PAGES_NOR_ITS_API(
        root ->
            noClasses()
                .that()
                .resideInAPackage(root + ".*")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(root + ".*.web..", root + ".*.api.."),
        "Rig.page()"),
    NAMES_SAY_WHAT_A_THING_IS(
        root ->
            noClasses()
                .that()
                .resideInAPackage(root + "..")
                .should()
                .haveSimpleNameEndingWith("Util")
                .orShould()
                .haveSimpleNameEndingWith("Utils")
                .orShould()
                .haveSimpleNameEndingWith("Helper")
                .orShould()
                .haveSimpleNameEndingWith("Manager")
                .orShould()
                .haveSimpleNameEndingWith("Impl"),
        "astray.rig.RigHelper"),
    NO_PUBLIC_SETTERS(
        root ->
            noMethods()
                .that()
                .areDeclaredInClassesThat()
                .resideInAPackage(root + "..")
                .and()
                // The framework tells those by no other way.
                .areDeclaredInClassesThat()
                .areNotAssignableTo(Aware.class)
                .and()
                .arePublic()
                .should()
                .haveNameMatching("set[A-Z].*"),
        "Rig.setName("),
    REPOSITORIES_STAY_IN_THEIR_PACKAGE(
        root ->
            classes()
                .that()
                .resideInAPackage(root + "..")
                .and()
                .areAssignableTo(Repository.class)
                .should()
                .bePackagePrivate(),
        "astray.rig.RigRepository"),
    EVERY_QUERY_IS_BY_LEDGER(
        ArchitectureTests::everyQueryIsByLedger, "RigRepository.findByCode", "RigRepository.named");

    private final Function<String, ArchRule> under;
    private final List<String> breaches;

    Rule(Function<String, ArchRule> under, String... breaches) {
      this.under = under;
      this.breaches = List.of(breaches);
    }
  }

  @ParameterizedTest
  @EnumSource
  void we_keep_the_rule(Rule rule) {
    rule.under.apply("org.tareline").check(OURS);
  }

  @ParameterizedTest
  @EnumSource
  void the_rule_can_fail(Rule rule) {
    String found =
        String.join(
            "\n", rule.under.apply("astray").evaluate(ASTRAY).getFailureReport().getDetails());

    assertThat(found).contains(rule.breaches);
    assertThat(found).doesNotContain(".right(", "RigRepository.all", "RigRepository.save");
  }

  @Test
  void the_modules_keep_their_arrows() {
    ApplicationModules.of(TarelineApplication.class).verify();
  }

  @Test
  void an_arrow_that_is_not_declared_is_found() {
    assertThatThrownBy(
            () -> ApplicationModules.of("astray", new ImportOption.OnlyIncludeTests()).verify())
        .hasMessageContaining("'units'")
        .hasMessageContaining("astray.rig.RigHelper");
  }

  @Test
  void every_package_declares_what_it_uses_and_uses_only_what_stands_before_it() {
    Set<String> packages =
        OURS.stream()
            .map(type -> type.getPackageName().split("\\."))
            .filter(words -> words.length > 2)
            .map(words -> words[2])
            .collect(Collectors.toSet());
    assertThat(packages).hasSameElementsAs(ORDER);

    for (String name : packages) {
      assertThat(declaredBy(name)).as(name).isSubsetOf(ORDER.subList(0, ORDER.indexOf(name)));
    }
  }

  /** They tell of it as they do so; from anything else a part could be hidden from the bench. */
  @ParameterizedTest
  @ValueSource(strings = {"PanRepository", "VoidingRepository"})
  void weighings_alone_keep_what_lay_on_a_pan_and_what_was_struck_out(String repository) {
    assertThat(
            OURS.get("org.tareline.weighing." + repository).getDirectDependenciesToSelf().stream()
                .map(use -> use.getOriginClass().getSimpleName()))
        .containsOnly("Weighings");
  }

  private static Set<String> declaredBy(String module) {
    ApplicationModule declaration =
        Arrays.stream(annotationsOf("org.tareline." + module))
            .filter(ApplicationModule.class::isInstance)
            .map(ApplicationModule.class::cast)
            .findFirst()
            .orElseThrow(() -> new AssertionError(module + " declares no arrows"));
    return Arrays.stream(declaration.allowedDependencies())
        .map(named -> named.split("::")[0].strip())
        .collect(Collectors.toSet());
  }

  private static java.lang.annotation.Annotation[] annotationsOf(String packageName) {
    try {
      return Class.forName(packageName + ".package-info").getAnnotations();
    } catch (ClassNotFoundException missing) {
      throw new AssertionError(packageName + " has no package-info", missing);
    }
  }

  private static DescribedPredicate<JavaClass> core(String root) {
    return resideInAnyPackage(
        root + ".units..",
        root + ".evidence..",
        root + ".rollup..",
        root + ".cutting..",
        root + ".provisions..",
        root + ".statics..");
  }

  private static ArchRule coreUsesOnlyTheJdkAndItself(String root) {
    return noClasses()
        .that(core(root))
        .and()
        .doNotHaveSimpleName("package-info")
        .should()
        .dependOnClassesThat(
            DescribedPredicate.not(
                core(root)
                    .or(
                        resideInAnyPackage(
                            "java..",
                            "org.jspecify..",
                            // Student's t, in evidence.
                            "org.apache.commons.statistics.."))))
        .as("the core uses only the JDK and itself");
  }

  /**
   * What answers differently from machine to machine. Method references count too, so targets of
   * any access are looked at and not only calls.
   */
  private static ArchRule coreIsToldItsLanguageZoneAndTime(String root) {
    return noClasses()
        .that(core(root))
        .should()
        .accessTargetWhere(
            new DescribedPredicate<JavaAccess<?>>("the machine decides") {
              @Override
              public boolean test(JavaAccess<?> access) {
                return access.getTarget() instanceof CodeUnitAccessTarget target
                    && machineDecides(target);
              }
            });
  }

  private static boolean machineDecides(CodeUnitAccessTarget target) {
    String owner = target.getOwner().getName();
    List<String> takes = target.getRawParameterTypes().stream().map(JavaClass::getName).toList();
    String call = owner.substring(owner.lastIndexOf('.') + 1) + '.' + target.getName();
    boolean toldALocale = takes.contains("java.util.Locale");
    return switch (call) {
      case "String.format", "String.toLowerCase", "String.toUpperCase", "Formatter.<init>" ->
          !toldALocale;
      case "String.formatted",
          "PrintStream.printf",
          "MessageFormat.format",
          "Locale.getDefault",
          "TimeZone.getDefault",
          "ZoneId.systemDefault",
          "System.currentTimeMillis",
          "System.nanoTime",
          "Clock.systemUTC",
          "Clock.systemDefaultZone" ->
          true;
      case "DecimalFormat.<init>" -> !takes.contains("java.text.DecimalFormatSymbols");
      case "DecimalFormatSymbols.<init>",
          "DecimalFormatSymbols.getInstance",
          "MessageFormat.<init>",
          "SimpleDateFormat.<init>",
          "DateTimeFormatter.ofPattern",
          "Collator.getInstance" ->
          !toldALocale;
      case "Date.<init>" -> takes.isEmpty();
      default ->
          owner.equals("java.text.NumberFormat")
                  && target.getName().startsWith("get")
                  && !toldALocale
              || owner.startsWith("java.time.")
                  && target.getName().equals("now")
                  && !takes.contains("java.time.Clock");
    };
  }

  /**
   * Of what belongs to a ledger, a repository finds, counts and deletes only in the ledger it is
   * told. Accounts and ledgers belong to none, and memberships are how an account finds its ledger.
   */
  private static ArchRule everyQueryIsByLedger(String root) {
    return classes()
        .that()
        .resideInAPackage(root + "..")
        .and()
        .areAssignableTo(Repository.class)
        .should(
            new ArchCondition<JavaClass>("take the ledger in every query") {
              @Override
              public void check(JavaClass repository, ConditionEvents events) {
                Class<?> type = repository.reflect();
                Class<?> of = ResolvableType.forClass(type).as(Repository.class).resolveGeneric(0);
                if (of == null || BELONGING_TO_NO_LEDGER.contains(of.getSimpleName())) {
                  return;
                }
                for (Method method : type.getMethods()) {
                  String name = type.getSimpleName() + '.' + method.getName();
                  if (!isByLedger(method, of)) {
                    events.add(
                        SimpleConditionEvent.violated(repository, name + " is not by ledger"));
                  }
                }
              }
            });
  }

  private static final Set<String> BELONGING_TO_NO_LEDGER =
      Set.of("Account", "Ledger", "Membership", "PasswordLink", "RecoveryCode");

  /** What is found by its secret is the one ledger's that the secret opens. */
  private static final String SECRET = "secretHash";

  private static boolean isByLedger(Method method, Class<?> of) {
    Class<?>[] takes = method.getParameterTypes();
    boolean handsOverTheThingItself =
        takes.length == 1
            && (takes[0] == of
                || takes[0] == Object.class
                || Iterable.class.isAssignableFrom(takes[0]))
            && method.getName().matches("(save|delete)(All)?(AndFlush)?");
    boolean asksForNothing = method.getName().equals("flush");
    if (handsOverTheThingItself || asksForNothing || method.isDefault()) {
      return true;
    }
    boolean takesIt =
        Arrays.stream(method.getParameters())
            .anyMatch(
                parameter ->
                    parameter.getName().equals("ledgerId") || parameter.getName().equals(SECRET));
    Query query = method.getAnnotation(Query.class);
    return takesIt
        && (query == null
            ? method.getName().contains("LedgerId") || method.getName().endsWith("BySecretHash")
            : query.value().contains(":ledgerId") || query.value().contains(':' + SECRET));
  }
}
