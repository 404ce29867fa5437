@NullMarked
package org.lonefibre.app.declaration;

import org.jspecify.annotations.NullMarked;
