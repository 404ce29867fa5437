/**
 * The command {@code copy}: {@link org.lonefibre.app.copy.CopyCommand} copies a recording to EDF+
 * or BDF+; the hidden {@code CopyText} says what became of each field and each sample.
 */
@NullMarked
package org.lonefibre.app.copy;

import org.jspecify.annotations.NullMarked;
