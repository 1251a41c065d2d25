package org.understock.service;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaCall;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.library.dependencies.SliceAssignment;
import com.tngtech.archunit.library.dependencies.SliceIdentifier;
import jakarta.persistence.Entity;
import java.time.Clock;
import java.util.Set;
import org.springframework.web.bind.annotation.RestController;

/**
 * The house's rules: who may know whom. {@link ArchitectureTest} holds the house to them, {@link
 * HouseRulesTest} shows that each can catch.
 */
enum HouseRules {
  THE_ENGINE_KNOWS_NO_FRAMEWORK_NO_DATABASE_AND_NO_SERVICE(
      noClasses()
          .that()
          .resideInAnyPackage(Names.ENGINE)
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "org.springframework..",
              "jakarta..",
              "java.sql..",
              "javax.sql..",
              "org.hibernate..",
              "org.postgresql..",
              "tools.jackson..",
              "com.fasterxml..",
              "org.slf4j..",
              "java.net.http..",
              "org.understock.service..",
              "org.understock.migrations..")),
  THE_ENGINE_HAS_NO_CLOCK(
      noClasses()
          .that()
          .resideInAnyPackage(Names.ENGINE)
          .should()
          .callMethod(System.class, "currentTimeMillis")
          .orShould()
          .callMethod(System.class, "nanoTime")
          .orShould()
          .callMethodWhere(Names.NOW)
          .orShould()
          .dependOnClassesThat()
          .belongToAnyOf(Clock.class)),
  THE_MIGRATIONS_KNOW_NO_SPRING_AND_NO_SERVICE(
      noClasses()
          .that()
          .resideInAPackage("org.understock.migrations..")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage("org.springframework..", "jakarta..", "org.understock.service..")),
  ONLY_ONE_JSON_LIBRARY_SERVES(
      noClasses()
          .should()
          .dependOnClassesThat()
          .resideInAPackage("com.fasterxml.jackson.databind..")),
  CONTROLLERS_KNOW_NO_DATABASE(
      noClasses()
          .that()
          .areAnnotatedWith(RestController.class)
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "java.sql..",
              "javax.sql..",
              "jakarta.persistence..",
              "org.springframework.data..",
              "org.springframework.jdbc..")),
  ENTITIES_DO_NOT_LEAVE_THE_STORE(
      classes()
          .that()
          .areAnnotatedWith(Entity.class)
          .should()
          .resideInAPackage("org.understock.service.store..")),
  ENTITIES_ARE_NOT_PUBLIC(classes().that().areAnnotatedWith(Entity.class).should().notBePublic()),
  FEATURES_MEET_ONLY_THROUGH_THE_ENGINE_AND_THE_STORE(
      slices().assignedFrom(new Features()).should().notDependOnEachOther()),
  WHAT_FEATURES_STAND_ON_KNOWS_NO_FEATURE(
      noClasses().that(Features.ARE_GROUND).should().dependOnClassesThat(Features.ARE_FEATURES)),
  THE_CONTRACT_IS_KNOWN_TO_NOBODY(
      noClasses()
          .that()
          .resideOutsideOfPackage("org.understock.service.contract..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("org.understock.service.contract..")),
  THE_ROOMS_HAVE_NO_CYCLES(slices().matching("org.understock.(*)..").should().beFreeOfCycles()),
  THE_SERVICE_HAS_NO_CYCLES(
      slices().matching("org.understock.service.(*)..").should().beFreeOfCycles());

  final ArchRule rule;

  HouseRules(ArchRule rule) {
    this.rule = rule.allowEmptyShould(false);
  }

  private static final class Names {
    static final String[] ENGINE = {
      "org.understock.trait..",
      "org.understock.wording..",
      "org.understock.plant..",
      "org.understock.evidence..",
      "org.understock.site..",
      "org.understock.growth..",
      "org.understock.climate..",
      "org.understock.pollination..",
      "org.understock.planting..",
      "org.understock.economics..",
      "org.understock.advice..",
      "org.understock.impact.."
    };

    static final DescribedPredicate<JavaCall<?>> NOW =
        DescribedPredicate.describe(
            "asks java.time for now",
            call ->
                call.getName().equals("now")
                    && call.getTargetOwner().getPackageName().startsWith("java.time"));
  }

  /**
   * The service's packages but those that features stand on; a new one is a feature until it is
   * named here.
   */
  private static final class Features implements SliceAssignment {
    static final String SERVICE = "org.understock.service.";
    static final Set<String> GROUND =
        Set.of(
            "store",
            "statement",
            "reading",
            "place",
            "series",
            "drawing",
            "platform",
            "problem",
            "limits",
            "security",
            "contract");
    static final DescribedPredicate<JavaClass> ARE_GROUND =
        DescribedPredicate.describe(
            "are what features stand on", type -> GROUND.contains(room(type)));
    static final DescribedPredicate<JavaClass> ARE_FEATURES =
        DescribedPredicate.describe("are part of a feature", type -> !of(type).isEmpty());

    private static String room(JavaClass type) {
      return type.getPackageName().startsWith(SERVICE)
          ? type.getPackageName().substring(SERVICE.length()).split("\\.")[0]
          : "";
    }

    /** The feature's name; empty for what is none. */
    private static String of(JavaClass type) {
      return GROUND.contains(room(type)) ? "" : room(type);
    }

    @Override
    public SliceIdentifier getIdentifierOf(JavaClass type) {
      return of(type).isEmpty() ? SliceIdentifier.ignore() : SliceIdentifier.of(of(type));
    }

    @Override
    public String getDescription() {
      return "features";
    }
  }
}
