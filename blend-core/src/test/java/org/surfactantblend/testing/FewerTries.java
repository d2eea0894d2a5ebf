package org.surfactantblend.testing;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import net.jqwik.api.lifecycle.AroundTryHook;
import net.jqwik.api.lifecycle.Lifespan;
import net.jqwik.api.lifecycle.PropagationMode;
import net.jqwik.api.lifecycle.Store;
import net.jqwik.api.lifecycle.TryExecutionResult;
import net.jqwik.api.lifecycle.TryExecutor;
import net.jqwik.api.lifecycle.TryLifecycleContext;

/**
 * Ends every property after the number of tries in the system property {@code tries.most}, whatever
 * the property itself asks for; without it, changes nothing. Mutation runs use it: they run every
 * test many hundred times.
 */
public final class FewerTries implements AroundTryHook {

  private static final int MOST = Integer.getInteger("tries.most", Integer.MAX_VALUE);

  @Override
  public TryExecutionResult aroundTry(
      TryLifecycleContext context, TryExecutor aTry, List<Object> parameters) {
    TryExecutionResult result = aTry.execute(parameters);
    int done =
        Store.getOrCreate(FewerTries.class, Lifespan.PROPERTY, AtomicInteger::new)
            .get()
            .incrementAndGet();
    return done >= MOST && result.isSatisfied() ? TryExecutionResult.satisfied(true) : result;
  }

  @Override
  public PropagationMode propagateTo() {
    return PropagationMode.ALL_DESCENDANTS;
  }
}
