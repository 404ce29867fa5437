/** The command {@code density}: fibre density, a recording mode of its own. */
@NullMarked
package org.lonefibre.app.density;

import org.jspecify.annotations.NullMarked;
