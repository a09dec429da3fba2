import { host } from "./bridge";
import { start } from "./start";

start(host);
