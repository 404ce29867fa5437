package org.lonefibre.analysis.study;

/**
 * The program that made a document.
 *
 * @param name name of the program
 * @param version its version
 */
public record Producer(String name, String version) {}
