package org.understock.service.security;

import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;

/**
 * Says in two paragraphs, without a stack trace, why the service does not start and what to set.
 */
final class AccessFaultAnalyzer extends AbstractFailureAnalyzer<AccessFault> {
  @Override
  protected FailureAnalysis analyze(Throwable failure, AccessFault cause) {
    return new FailureAnalysis(String.valueOf(cause.getMessage()), cause.cure(), failure);
  }
}
