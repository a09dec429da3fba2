import { useEffect, useRef, useState } from "preact/hooks";
import type { Field } from "../contract";
import { useBedside } from "../bedside";

/** Between two pictures, ms: a hand moves no faster. */
const EVERY_MS = 700;

/** The tablet's camera, once a person asks for it; where there is none, the words for that. */
export function CameraField({ field }: { field: Field<string> }) {
  const { handIn } = useBedside();
  const [stream, setStream] = useState<MediaStream | null>(null);
  const [none, setNone] = useState(false);
  const video = useRef<HTMLVideoElement>(null);
  useEffect(() => (stream ? watched(video.current, stream, (file) => handIn(field.id, file)) : undefined), [stream]);
  const open = () => opened().then(setStream, () => setNone(true));
  if (none) return <p class="field-label">{field.choices[0]?.label}</p>;
  return (
    <div class="field file">
      {stream ? (
        <video ref={video} muted playsInline aria-label={field.label} />
      ) : (
        <button type="button" class="act strong" data-key={field.id} onClick={open}>
          <span class="label">{field.label}</span>
        </button>
      )}
    </div>
  );
}

/** Rejects where the platform has no camera, or does not give it. */
async function opened(): Promise<MediaStream> {
  const wanted = { video: { facingMode: "environment", width: { ideal: 1920 } }, audio: false };
  return navigator.mediaDevices.getUserMedia(wanted);
}

/** Hands in a picture now and then, until the card goes. */
function watched(video: HTMLVideoElement | null, stream: MediaStream, take: (file: File) => void): () => void {
  if (!video) return () => undefined;
  video.srcObject = stream;
  video.play().catch(reportError);
  const timer = setInterval(() => picture(video, take), EVERY_MS);
  return () => {
    clearInterval(timer);
    for (const track of stream.getTracks()) track.stop();
  };
}

function picture(video: HTMLVideoElement, take: (file: File) => void): void {
  if (video.videoWidth === 0) return;
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = [video.videoWidth, video.videoHeight];
  canvas.getContext("2d")?.drawImage(video, 0, 0);
  canvas.toBlob((blob) => blob && take(new File([blob], "camera.jpg")), "image/jpeg", 0.9);
}
