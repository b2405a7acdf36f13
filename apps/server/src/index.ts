export type { Complaint } from './answers.ts';
export {
  closeNetwork,
  type DeviceRecord,
  defaultHttpsPort,
  hostNameOf,
  listInterfaces,
  type NetworkInterface,
  namedAuthority,
  openDevices,
  printQr,
  readNetwork,
  setAuthorityAside,
  writeNetwork,
} from './network/index.ts';
export { readServerInfo, type ServerInfo } from './server-info.ts';
export { defaultPort, type Server, type ServerOptions, startServer } from './start.ts';
export { type KnownStick, knownSticks, knowStick, verifiedBackups } from './sticks/index.ts';
