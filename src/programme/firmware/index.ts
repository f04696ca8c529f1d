export { type FirmwareFile, firmwareOfSchedule, firmwareOfSerial } from "./firmware-files.ts";
