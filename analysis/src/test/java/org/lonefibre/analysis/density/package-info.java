@NullMarked
package org.lonefibre.analysis.density;

import org.jspecify.annotations.NullMarked;
