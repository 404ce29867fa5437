package org.lonefibre.formats.reader;

/**
 * One field of the header of a file, as written.
 *
 * @param name what it is, for example {@code patient}
 * @param signal number of the signal it belongs to, from 1; 0 for the whole file
 * @param from its first byte in the file
 * @param to its last byte
 * @param text its text, surrounding space removed; hostile text, escaped wherever it is shown
 */
public record HeaderField(String name, int signal, long from, long to, String text) {}
