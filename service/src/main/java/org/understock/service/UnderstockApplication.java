package org.understock.service;

import org.springframework.boot.SpringApplication;
import org.springframework.boot.autoconfigure.SpringBootApplication;

/** Starts the service. */
@SpringBootApplication
public class UnderstockApplication {
  public static void main(String[] args) {
    SpringApplication.run(UnderstockApplication.class, args);
  }
}
