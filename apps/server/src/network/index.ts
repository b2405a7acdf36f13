export {
  backUpNetwork,
  hasNetwork,
  lacksNetwork,
  networkCopiedAt,
  networkOn,
  recoverNetwork,
  takeNetworkOff,
} from './backup.ts';
export { namedAuthority, setAuthorityAside } from './certificates.ts';
export { type DeviceRecord, type Devices, openDevices } from './devices.ts';
export { serveInstaller } from './installer.ts';
export { listInterfaces, type NetworkInterface } from './interfaces.ts';
export { type CampNetwork, campNetwork } from './open.ts';
export { printQr } from './qr.ts';
export { serveDevices } from './routes.ts';
export {
  closeNetwork,
  defaultHttpsPort,
  hostNameOf,
  readNetwork,
  writeNetwork,
} from './settings.ts';
export { countWrote, heldOf, type Wrote } from './wrote.ts';
