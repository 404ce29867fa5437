/** Being built. */
@NullMarked
package org.lonefibre.analysis.settings;

import org.jspecify.annotations.NullMarked;
