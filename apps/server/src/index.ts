export type { Complaint } from './answers.ts';
export { readServerInfo, type ServerInfo } from './server-info.ts';
export { defaultPort, type Server, type ServerOptions, startServer } from './start.ts';
