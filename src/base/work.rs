//! Work that grows with a text, counted so that tests can hold its growth. Nothing is counted outside of them.

#[cfg(feature = "internals")]
thread_local! {
    static STEPS: std::cell::Cell<u64> = const { std::cell::Cell::new(0) };
}

/// Notes steps of a loop whose length a text decides: names compared, letters weighed.
#[inline]
pub fn done(steps: usize) {
    #[cfg(feature = "internals")]
    STEPS.set(STEPS.get() + steps as u64);
    #[cfg(not(feature = "internals"))]
    let _ = steps;
}

/// The steps of this thread while something runs.
#[cfg(feature = "internals")]
pub fn of<T>(run: impl FnOnce() -> T) -> (T, u64) {
    let before = STEPS.get();
    let made = run();
    (made, STEPS.get() - before)
}
