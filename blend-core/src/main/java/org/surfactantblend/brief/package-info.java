/**
 * What is asked for: named requirements, the wish to optimise, and which lots must be served. Start
 * with {@link org.surfactantblend.brief.Brief#named}.
 */
@NullMarked
package org.surfactantblend.brief;

import org.jspecify.annotations.NullMarked;
