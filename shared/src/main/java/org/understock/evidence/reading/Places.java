package org.understock.evidence.reading;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Arrays;

/**
 * A number by text, for many texts: keeps 16 bytes a text instead of the text, so that what one row
 * must know of a million others fits into memory. Texts are told apart by 64 bits of their SHA-256;
 * a million of them meet by chance once in some forty million files.
 */
final class Places {
  /** What {@link #get} answers for a text that was not put. */
  static final long NONE = 0;

  private final MessageDigest sha;
  private long[] keys = new long[1024];
  private long[] values = new long[1024];
  private int size;

  Places() {
    try {
      sha = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  long get(String text) {
    return values[slot(hash(text), keys, values)];
  }

  /**
   * @param value not 0
   */
  void put(String text, long value) {
    if (value == NONE) throw new IllegalArgumentException("0 stands for nothing");
    if (size * 2 >= keys.length) grow();
    long key = hash(text);
    int slot = slot(key, keys, values);
    if (values[slot] == NONE) size++;
    keys[slot] = key;
    values[slot] = value;
  }

  void clear() {
    Arrays.fill(values, NONE);
    size = 0;
  }

  /** 64 bits of a text, never 0. */
  long hash(String text) {
    long hash = ByteBuffer.wrap(sha.digest(text.getBytes(StandardCharsets.UTF_8))).getLong();
    return hash == 0 ? 1 : hash;
  }

  private static int slot(long key, long[] keys, long[] values) {
    int slot = (int) key & keys.length - 1;
    while (values[slot] != NONE && keys[slot] != key) slot = slot + 1 & keys.length - 1;
    return slot;
  }

  private void grow() {
    long[] moreKeys = new long[keys.length * 2];
    long[] moreValues = new long[keys.length * 2];
    for (int i = 0; i < keys.length; i++) {
      if (values[i] == NONE) continue;
      int slot = slot(keys[i], moreKeys, moreValues);
      moreKeys[slot] = keys[i];
      moreValues[slot] = values[i];
    }
    keys = moreKeys;
    values = moreValues;
  }
}
