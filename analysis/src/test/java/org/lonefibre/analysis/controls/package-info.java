@NullMarked
package org.lonefibre.analysis.controls;

import org.jspecify.annotations.NullMarked;
