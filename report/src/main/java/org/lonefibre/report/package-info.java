/**
 * A study on paper and on the wire. {@link org.lonefibre.report.ReportWriter} is the door; {@code
 * document} arranges an examination once, {@code figure} draws, {@code html}, {@code pdf} and
 * {@code csv} only render. {@code WholeFiles} makes files appear whole or not at all.
 */
@NullMarked
package org.lonefibre.report;

import org.jspecify.annotations.NullMarked;
