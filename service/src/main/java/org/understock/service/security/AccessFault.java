package org.understock.service.security;

/** The service can't start, because it would not know whose tokens are good. */
final class AccessFault extends RuntimeException {
  private final String cure;

  /**
   * @param fault what is wrong
   * @param cure what to set
   */
  AccessFault(String fault, String cure) {
    super(fault);
    this.cure = cure;
  }

  String cure() {
    return cure;
  }
}
