package org.lonefibre.report.html;

import org.lonefibre.report.document.SignalEntry;
import org.lonefibre.report.figure.Figure;

/**
 * A signal with its figure.
 *
 * @param entry the signal
 * @param figure its figure
 */
record SignalView(SignalEntry entry, Figure figure) {}
