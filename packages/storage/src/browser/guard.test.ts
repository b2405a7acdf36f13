import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { chainOf, suiteCampaign } from '../store.suite.ts';
import { lendIndexedDb } from './fake.suite.ts';
import { lendFiles } from './fake-files.suite.ts';
import { ballastBytes, createGuard, type RoomFiles } from './guard.ts';
import { openBrowserStore } from './store.ts';

const megabyte = 2 ** 20;
const noRoom = () => new DOMException('no', 'QuotaExceededError');

/** A disk with so many bytes free, of which the ballast takes its part. */
class Disk implements RoomFiles {
  ballast = 0;
  calls: string[] = [];
  trouble: (() => Error) | null = null;
  isSilent = false;
  free: number;
  constructor(free: number) {
    this.free = free;
  }
  private async take(bytes: number, isKept: boolean) {
    if (this.isSilent) await new Promise(() => undefined);
    if (this.trouble !== null) throw this.trouble();
    if (bytes > this.free) throw noRoom();
    if (isKept) this.free -= bytes;
  }
  async layMore(upTo: number) {
    const more = Math.min(megabyte, Math.max(0, upTo - this.ballast));
    await this.take(more, true);
    this.ballast += more;
    return this.ballast;
  }
  async release() {
    this.calls.push('release');
    this.free += this.ballast;
    this.ballast = 0;
  }
  async sing(bytes: number, isFlushed: boolean) {
    this.calls.push(isFlushed ? 'sing and flush' : 'sing');
    await this.take(bytes, false);
  }
  async probe(bytes: number) {
    this.calls.push('probe');
    await this.take(bytes, false);
  }
}

const diskFull = { trouble: 'disk full', mend: expect.stringContaining('Nothing was written') };

describe('rule 9: the guard of the room', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  it('sets 16 MB aside, and lets entries pass while the canary sings', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk, () => 7_000);
    await guard.begin();
    expect([guard.room, guard.triedAt]).toEqual(['unknown', 7_000]);
    await guard.lay();
    expect([guard.room, guard.ballast, disk.ballast]).toEqual(['whole', ballastBytes, 16 * megabyte]);
    disk.calls = [];
    for (let entries = 0; entries < 40; entries += 1) await guard.admit();
    expect(disk.calls.filter((call) => call === 'sing')).toHaveLength(38);
    expect(disk.calls.filter((call) => call === 'sing and flush')).toHaveLength(2);
  });

  it('refuses the entry before which the canary fails, gives the ballast back, and goes on in its room', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    const seen: string[] = [];
    guard.subscribe(() => seen.push(guard.room));
    await guard.lay();
    disk.free = 0;
    await expect(guard.admit()).rejects.toMatchObject(diskFull);
    expect([guard.room, disk.ballast, disk.free]).toEqual(['last', 0, ballastBytes]);
    await guard.admit();
    disk.free = megabyte;
    await expect(guard.admit()).rejects.toMatchObject(diskFull);
    expect(guard.room).toBe('none');
    disk.free = 3 * megabyte;
    await guard.admit();
    expect(seen).toEqual(['whole', 'last', 'none', 'last']);
  });

  it('a failed write stops everything; a disk without any room stays closed', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    await guard.failed();
    expect([guard.room, disk.ballast]).toEqual(['last', 0]);
    disk.free = 0;
    await guard.failed();
    expect(guard.room).toBe('none');
    await expect(guard.admit()).rejects.toMatchObject(diskFull);
  });

  it('a start on a full disk gives the ballast back before a database is opened', async () => {
    const disk = new Disk(0);
    disk.ballast = 16 * megabyte;
    const guard = createGuard(disk);
    await guard.begin();
    expect([guard.room, disk.free]).toEqual(['last', 16 * megabyte]);
    expect(disk.calls).toEqual(['sing and flush', 'release', 'probe']);
  });

  it('a ballast that does not fit takes no room away', async () => {
    const disk = new Disk(9.5 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    expect([guard.room, guard.ballast, disk.free]).toEqual(['last', 0, 9.5 * megabyte]);
  });

  it('a photograph must fit beside the entries', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    disk.free = 5 * megabyte;
    await expect(guard.admit(6 * megabyte)).rejects.toMatchObject(diskFull);
    await guard.admit(6 * megabyte);
    disk.free = 5 * megabyte;
    await expect(guard.admit(6 * megabyte)).rejects.toMatchObject(diskFull);
    expect(guard.room).toBe('last');
    await guard.admit();
  });

  it('asked whether something fits that nobody has to have, it changes nothing', async () => {
    const disk = new Disk(30 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    expect(await guard.hasRoom(6 * megabyte)).toBe(true);
    expect(await guard.hasRoom(13 * megabyte)).toBe(false);
    expect([guard.room, disk.ballast]).toEqual(['whole', ballastBytes]);
    await guard.failed();
    expect(await guard.hasRoom(1)).toBe(false);
    expect(await createGuard(null).hasRoom(megabyte)).toBe(true);
  });

  it('a song begun ahead of an entry counts for that entry alone, and for a second', async () => {
    const disk = new Disk(100 * megabyte);
    let time = 5_000;
    const guard = createGuard(disk, () => time);
    await guard.lay();
    disk.calls = [];
    guard.foresee();
    guard.foresee();
    expect(disk.calls).toEqual(['sing']);
    await guard.admit();
    expect(disk.calls).toEqual(['sing']);
    await guard.admit();
    expect(disk.calls).toEqual(['sing', 'sing']);
    guard.foresee();
    time += 1_001;
    disk.free = 0;
    await expect(guard.admit()).rejects.toMatchObject(diskFull);
    expect(disk.calls).toEqual(['sing', 'sing', 'sing', 'sing', 'release', 'probe']);
  });

  it('a song begun ahead that finds no room refuses the entry; without room nothing is sung ahead', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    disk.free = 0;
    disk.calls = [];
    guard.foresee();
    await expect(guard.admit()).rejects.toMatchObject(diskFull);
    guard.foresee();
    expect(disk.calls).toEqual(['sing', 'release', 'probe']);
    createGuard(null).foresee();
  });

  it('a disk that is silent for four seconds counts as full', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    disk.isSilent = true;
    const told = expect(guard.admit()).rejects.toMatchObject(diskFull);
    await vi.advanceTimersByTimeAsync(8_100);
    await told;
    expect(guard.room).toBe('stuck');
    // What would wait behind the silent one is not asked for.
    const asked = disk.calls.length;
    const again = expect(guard.admit()).rejects.toMatchObject(diskFull);
    await vi.advanceTimersByTimeAsync(4_100);
    await again;
    expect(disk.calls).toHaveLength(asked);
  });

  it('a disk that takes six seconds refuses one entry and is not said to be stuck', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    let isSlow = true;
    const sing = disk.sing.bind(disk);
    disk.sing = async (bytes, isFlushed) => {
      if (isSlow) await new Promise((resolve) => setTimeout(resolve, 6_000));
      isSlow = false;
      await sing(bytes, isFlushed);
    };
    const told = expect(guard.admit()).rejects.toMatchObject(diskFull);
    await vi.advanceTimersByTimeAsync(6_100);
    await told;
    expect(guard.room).toBe('last');
    await guard.admit();
  });

  it('a browser that fails every file, room or no room, is said to be stuck, until a try succeeds', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    disk.trouble = () => new DOMException('the state had changed', 'InvalidStateError');
    const stuck = { trouble: 'disk full', mend: expect.stringContaining('close the browser') };
    for (let tries = 0; tries < 2; tries += 1) {
      await expect(guard.admit()).rejects.toMatchObject(stuck);
      expect(guard.room).toBe('stuck');
      expect(await guard.hasRoom(1)).toBe(false);
    }
    disk.trouble = noRoom;
    await expect(guard.admit()).rejects.toMatchObject(diskFull);
    expect(guard.room).toBe('none');
    disk.trouble = null;
    await guard.admit();
    expect(guard.room).toBe('last');
  });

  it('tries the ballast again by itself after five minutes, and at once when a person asks', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    await guard.lay();
    await guard.failed();
    await vi.advanceTimersByTimeAsync(5 * 60_000);
    expect([guard.room, disk.ballast]).toEqual(['whole', 16 * megabyte]);
    await guard.failed();
    await guard.lay();
    expect(guard.room).toBe('whole');
  });

  it('a browser without files is not refused anything: it says "absent"', async () => {
    const none = createGuard(null);
    await none.begin();
    await none.admit();
    await none.failed();
    const disk = new Disk(0);
    disk.trouble = () => new DOMException('private', 'SecurityError');
    const forbidden = createGuard(disk);
    await forbidden.begin();
    await forbidden.admit();
    expect([none.room, forbidden.room]).toEqual(['absent', 'absent']);
  });
});

describe('the browser store and its guard', () => {
  let giveBack: () => void;
  let files: ReturnType<typeof lendFiles>;
  beforeEach(() => {
    giveBack = lendIndexedDb();
    files = lendFiles();
  });
  afterEach(() => giveBack());

  it('nothing is written where the canary fails; the same entries are taken once there is room', async () => {
    const disk = new Disk(100 * megabyte);
    const store = await openBrowserStore(suiteCampaign, files.open, createGuard(disk));
    await vi.waitFor(() => expect(disk.ballast).toBe(ballastBytes));
    const chain = chainOf(3);
    await store.append(chain.slice(0, 1));
    disk.free = 0;
    await expect(store.append(chain)).rejects.toMatchObject({ trouble: 'disk full' });
    expect((await store.load()).length).toBe(1);
    await store.append(chain);
    expect((await store.load()).map((one) => one.hash)).toEqual(chain.map((one) => one.hash));
  });

  it('control: without a guard the same disk is written to', async () => {
    const store = await openBrowserStore(suiteCampaign, files.open, createGuard(null));
    await store.append(chainOf(3));
    expect((await store.load()).length).toBe(3);
  });

  it('a second copy that does not fit gives the ballast back', async () => {
    const disk = new Disk(100 * megabyte);
    const guard = createGuard(disk);
    const store = await openBrowserStore(suiteCampaign, files.open, guard);
    await vi.waitFor(() => expect(guard.room).toBe('whole'));
    files.files.get(`firnbook-${suiteCampaign}.jsonl`)!.room = 0;
    await expect(store.append(chainOf(1))).rejects.toMatchObject({ trouble: 'disk full' });
    expect([guard.room, disk.ballast]).toEqual(['last', 0]);
  });
});
