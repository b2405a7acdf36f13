/**
 * Runs jobs one group at a time: what arrives while a group is at work forms the next one. So writing is
 * serialised, and many small writes share one flush to disk without any timer.
 *
 * @param run settles every job it is given and never rejects
 * @param most largest group
 */
export function createGroups<Job>(
  run: (group: readonly Job[]) => Promise<void>,
  most: number,
): (job: Job) => void {
  const queue: Job[] = [];
  let isRunning = false;

  async function work(): Promise<void> {
    isRunning = true;
    // One turn of the event loop's microtasks, so that callers of the same moment form one group.
    await null;
    while (queue.length > 0) await run(queue.splice(0, most));
    isRunning = false;
  }

  return (job) => {
    queue.push(job);
    if (!isRunning) void work();
  };
}
