//! Work spread over the cores whose results come in order: the same bytes whatever the number of cores.

use std::sync::mpsc::{Receiver, sync_channel};
use std::thread;

use crate::base::limits::STACK;

/// Results of one core that may wait for those before them: memory does not grow with the number of files.
const WAITING: usize = 32;

/// Does a piece of work for each item on all cores, and takes each result in the order of the items, for as long as
/// `take` says to go on.
pub(super) fn in_order<I: Sync, T: Send>(items: &[I], work: impl Fn(&I) -> T + Sync, mut take: impl FnMut(T) -> Next) {
    // To ask for the number of cores is to read files of the system: not for one item.
    let several = items.len() > 1;
    let cores =
        several.then(thread::available_parallelism).and_then(Result::ok).map_or(1, usize::from).min(items.len());
    if cores < 2 {
        items.iter().map(work).try_for_each(|result| take(result).flow());
        return;
    }
    let work = &work;
    thread::scope(|scope| {
        let results: Vec<Option<Receiver<T>>> = (0..cores)
            .map(|core| {
                let (send, receive) = sync_channel(WAITING);
                let share = items.iter().skip(core).step_by(cores);
                // Nobody takes any more where the other end is gone.
                let run = move || share.map(work).try_for_each(|result| send.send(result).ok());
                thread::Builder::new().stack_size(STACK).spawn_scoped(scope, run).ok().map(|_| receive)
            })
            .collect();
        for (item, core) in items.iter().zip(results.iter().cycle()) {
            // What a core could not be had for, or gave up on, is done here.
            let result = core.as_ref().and_then(|core| core.recv().ok()).unwrap_or_else(|| work(item));
            if take(result) == Next::Stop {
                return;
            }
        }
    });
}

/// Whether further results are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Next {
    GoOn,
    Stop,
}

impl Next {
    fn flow(self) -> Option<()> {
        (self == Next::GoOn).then_some(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_come_in_the_order_of_the_items() {
        let items: Vec<usize> = (0..1000).collect();
        let mut taken = Vec::new();
        let slow = |item: &usize| {
            if item.is_multiple_of(7) {
                thread::yield_now();
            }
            item * 2
        };
        in_order(&items, slow, |result| {
            taken.push(result);
            Next::GoOn
        });
        assert_eq!(taken, items.iter().map(|item| item * 2).collect::<Vec<_>>());
    }

    #[test]
    fn nothing_is_taken_once_nothing_more_is_wanted() {
        let items: Vec<usize> = (0..1000).collect();
        let mut taken = 0;
        in_order(
            &items,
            |item| *item,
            |_| {
                taken += 1;
                if taken == 3 { Next::Stop } else { Next::GoOn }
            },
        );
        assert_eq!(taken, 3);
    }
}
