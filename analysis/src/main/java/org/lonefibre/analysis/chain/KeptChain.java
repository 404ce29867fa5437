package org.lonefibre.analysis.chain;

/**
 * A test of a chain as it is kept: the content of the file that the command {@code chain} writes.
 *
 * @param schema {@value #SCHEMA}
 * @param testedOn day of the test, UTC, ISO 8601
 * @param file name of the export that was tested
 * @param channel label of its signal
 * @param result what was found
 */
public record KeptChain(
    String schema, String testedOn, String file, String channel, ChainResult result) {

  /** Name of the document. */
  public static final String SCHEMA = "lonefibre-chain-1";
}
