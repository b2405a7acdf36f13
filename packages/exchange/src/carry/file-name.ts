/** A name for the file that says whose it is and when it was written, and that every file system takes. */
export const carryFileName = (campaignName: string, deviceName: string, now: number): string => {
  const at = new Date(now).toISOString().slice(0, 16).replace('T', ' ').replace(':', '');
  const plain = (text: string) =>
    text
      .replace(/[^\p{L}\p{N} ,.()-]/gu, '-')
      .slice(0, 60)
      .trim();
  return `${plain(campaignName) || 'campaign'} from ${plain(deviceName) || 'a device'} ${at} UTC.jsonl`;
};
