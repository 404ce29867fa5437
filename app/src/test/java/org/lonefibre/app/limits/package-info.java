@org.jspecify.annotations.NullMarked
package org.lonefibre.app.limits;
