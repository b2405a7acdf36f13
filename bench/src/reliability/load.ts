/**
 * load.ts ADDRESS CAMPAIGN REST: three tablets that log and sync for ever, each with so many ms of rest after every
 * exchange. Says "HASH" of each entry as soon as a tablet could tick it as "on the camp computer".
 */
import { setTimeout as pause } from 'node:timers/promises';
import { memoryTablet, post, runLogged } from './crew.ts';

const [address = '', campaign = '', rest = '0'] = process.argv.slice(2);

await Promise.all(
  [0, 1, 2].map(async () => {
    const device = await memoryTablet(campaign);
    for (let number = 0; ; number += 1) {
      await device.write([runLogged(3 * number), runLogged(3 * number + 1), runLogged(3 * number + 2)]);
      const request = device.ask('camp');
      await device.hear('camp', await post(request, address));
      const camp = device.safety('camp');
      const safe = request.entries.filter(({ hash }) => {
        const entry = device.ledger.get(hash);
        return entry !== undefined && camp.holds(entry);
      });
      process.stdout.write(safe.map(({ hash }) => `${hash}\n`).join(''));
      await pause(Number(rest));
    }
  }),
);
