/** The workbench used as people and attackers use it. */
@NullMarked
package org.lonefibre.app.serve;

import org.jspecify.annotations.NullMarked;
