package org.surfactantblend.examples.mymaterials;

import net.jqwik.api.lifecycle.AroundPropertyHook;
import net.jqwik.api.lifecycle.PropertyExecutionResult;
import net.jqwik.api.lifecycle.PropertyExecutor;
import net.jqwik.api.lifecycle.PropertyLifecycleContext;

/** One fixed seed for all properties, unless {@code -Dseed=} or {@code -Dtries=} say otherwise. */
final class FromCommandLine implements AroundPropertyHook {
  @Override
  public PropertyExecutionResult aroundProperty(
      PropertyLifecycleContext context, PropertyExecutor property) {
    context.attributes().setSeed(System.getProperty("seed", "20261125"));
    context.attributes().setTries(Integer.getInteger("tries", 60));
    return property.execute();
  }
}
