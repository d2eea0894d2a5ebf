/**
 * A shop's own rows of raw materials, put to the test: checks of every row, and laws that random
 * blends, lots and briefs made of them must obey.
 */
package org.surfactantblend.examples.mymaterials;
