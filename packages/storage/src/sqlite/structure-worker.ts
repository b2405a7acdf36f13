import { parentPort, workerData } from 'node:worker_threads';
import { isStructureSound } from './verify.ts';

parentPort?.postMessage(isStructureSound(workerData as string));
