package org.understock.service.limits;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.github.bucket4j.Bucket;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.time.Duration;
import java.util.Arrays;
import java.util.HexFormat;

/**
 * The allowances of the clients that asked lately, so many and no more. Each replica counts for
 * itself.
 */
final class Clients {
  private static final Duration MINUTE = Duration.ofMinutes(1);
  private static final int NETWORK_BYTES = 8;

  private final LimitSettings settings;
  private final Cache<String, Bucket> buckets;

  Clients(LimitSettings settings) {
    this.settings = settings;
    // By then an allowance is full again, so that nothing is lost with it.
    Duration whole =
        settings.perMinute() == 0
            ? MINUTE
            : MINUTE.multipliedBy(1 + settings.burst() / settings.perMinute());
    buckets =
        Caffeine.newBuilder().maximumSize(settings.clients()).expireAfterAccess(whole).build();
  }

  Bucket of(String address) {
    return buckets.get(client(address), c -> full());
  }

  /**
   * Counts by a clock that nobody can set: with the one of the wall, set back by an hour, no
   * allowance would be filled for an hour.
   */
  private Bucket full() {
    return Bucket.builder()
        .withNanosecondPrecision()
        .addLimit(
            limit -> limit.capacity(settings.burst()).refillGreedy(settings.perMinute(), MINUTE))
        .build();
  }

  /**
   * Who is behind an address: all of an IPv6 network of 64 bits is one, for its addresses are given
   * to one customer by the billion.
   */
  static String client(String address) {
    if (address.indexOf(':') < 0) return address;
    try {
      // An address with colons is never looked up.
      InetAddress parsed = InetAddress.getByName(address);
      if (!(parsed instanceof Inet6Address)) return parsed.getHostAddress();
      return HexFormat.of().formatHex(Arrays.copyOf(parsed.getAddress(), NETWORK_BYTES)) + "/64";
    } catch (UnknownHostException e) {
      return address;
    }
  }

  long remembered() {
    buckets.cleanUp();
    return buckets.estimatedSize();
  }
}
