/** Tells the other tabs that a campaign's journal has grown; they read on with `loadAfter`. */
export function announce(campaign: string): void {
  if (typeof BroadcastChannel === 'undefined') return;
  const channel = new BroadcastChannel(channelName(campaign));
  channel.postMessage('grown');
  channel.close();
}

/** Calls `hear` when another tab announces; the answer stops that. */
export function listen(campaign: string, hear: () => void): () => void {
  if (typeof BroadcastChannel === 'undefined') return () => undefined;
  const channel = new BroadcastChannel(channelName(campaign));
  channel.onmessage = () => hear();
  return () => channel.close();
}

function channelName(campaign: string): string {
  return `firnbook-${campaign}`;
}
