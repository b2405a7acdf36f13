export type { Complaint } from './answers.ts';
export {
  backUpNetwork,
  closeNetwork,
  countWrote,
  type DeviceRecord,
  defaultHttpsPort,
  hasNetwork,
  heldOf,
  hostNameOf,
  listInterfaces,
  type NetworkInterface,
  namedAuthority,
  networkCopiedAt,
  networkOn,
  openDevices,
  printQr,
  readNetwork,
  recoverNetwork,
  setAuthorityAside,
  takeNetworkOff,
  type Wrote,
  writeNetwork,
} from './network/index.ts';
export { openPins } from './people/index.ts';
export { readServerInfo, type ServerInfo } from './server-info.ts';
export { defaultPort, type Server, type ServerOptions, startServer } from './start.ts';
export { type KnownStick, knownSticks, knowStick, verifiedBackups } from './sticks/index.ts';
