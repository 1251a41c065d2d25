package org.understock.service;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import jakarta.persistence.Entity;
import org.junit.jupiter.api.Test;
import org.springframework.web.bind.annotation.RestController;

/** The house's rules: who may know whom. */
class ArchitectureTest {
  private static final JavaClasses ALL = new ClassFileImporter().withImportOption(new ImportOption.DoNotIncludeTests()).importPackages("org.understock");
  private static final String[] ENGINE = {"org.understock.trait..", "org.understock.plant..", "org.understock.evidence..", "org.understock.site..",
      "org.understock.growth..", "org.understock.climate..", "org.understock.pollination..", "org.understock.planting..", "org.understock.advice.."};

  private static void check(ArchRule rule) {
    rule.allowEmptyShould(false).check(ALL);
  }

  @Test
  void the_engine_knows_no_framework_no_database_and_no_service() {
    check(noClasses().that().resideInAnyPackage(ENGINE).should().dependOnClassesThat().resideInAnyPackage("org.springframework..", "jakarta..", "java.sql..",
        "javax.sql..", "org.hibernate..", "org.postgresql..", "tools.jackson..", "com.fasterxml..", "org.slf4j..", "java.net.http..", "org.understock.service..",
        "org.understock.migrations.."));
  }

  @Test
  void the_engine_has_no_clock() {
    check(noClasses().that().resideInAnyPackage(ENGINE).should().callMethod(System.class, "currentTimeMillis").orShould().callMethod(System.class, "nanoTime")
        .orShould().dependOnClassesThat().haveFullyQualifiedName("java.time.Clock"));
  }

  @Test
  void the_migrations_know_no_spring_and_no_service() {
    check(noClasses().that().resideInAPackage("org.understock.migrations..").should().dependOnClassesThat()
        .resideInAnyPackage("org.springframework..", "jakarta..", "org.understock.service.."));
  }

  @Test
  void only_one_json_library_serves() {
    check(noClasses().should().dependOnClassesThat().resideInAPackage("com.fasterxml.jackson.databind.."));
  }

  @Test
  void controllers_know_no_database() {
    check(noClasses().that().areAnnotatedWith(RestController.class).should().dependOnClassesThat()
        .resideInAnyPackage("java.sql..", "javax.sql..", "jakarta.persistence..", "org.springframework.data..", "org.springframework.jdbc.."));
  }

  @Test
  void entities_do_not_leave_the_store() {
    check(classes().that().areAnnotatedWith(Entity.class).should().resideInAPackage("org.understock.service.store..").andShould().notBePublic());
  }

  @Test
  void features_meet_only_through_the_engine_and_the_store() {
    check(noClasses().that().resideInAPackage("org.understock.service.catalogue..").should().dependOnClassesThat().resideInAPackage("org.understock.service.contract.."));
    check(noClasses().that().resideInAPackage("org.understock.service.store..").should().dependOnClassesThat()
        .resideInAnyPackage("org.understock.service.advice..", "org.understock.service.catalogue..", "org.understock.service.contract.."));
    check(noClasses().that().resideInAPackage("org.understock.service.catalogue..").should().dependOnClassesThat().resideInAPackage("org.understock.service.advice.."));
    check(noClasses().that().resideInAPackage("org.understock.service.security..").should().dependOnClassesThat().resideInAnyPackage(
        "org.understock.service.advice..", "org.understock.service.catalogue..", "org.understock.service.contract..", "org.understock.service.curation.."));
  }

  @Test
  void packages_have_no_cycles() {
    check(slices().matching("org.understock.(*)..").should().beFreeOfCycles());
    check(slices().matching("org.understock.service.(*)..").should().beFreeOfCycles());
  }
}
