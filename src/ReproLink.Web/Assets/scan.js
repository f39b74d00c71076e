// The label by the camera, where the browser can read codes.
function scanning(found, failed) {
  const button = document.getElementById('scan');
  const camera = document.getElementById('camera');
  const picture = document.getElementById('picture');
  if (!button || !('BarcodeDetector' in window) || !navigator.mediaDevices?.getUserMedia) {
    return;
  }

  let stream = null;
  const close = () => {
    stream?.getTracks().forEach(track => track.stop());
    stream = null;
    camera.hidden = true;
  };

  const look = async detector => {
    if (!stream) {
      return;
    }

    const codes = await detector.detect(picture).catch(() => []);
    if (stream && codes.length > 0) {
      close();
      navigator.vibrate?.(60);
      found(codes[0].rawValue);
      return;
    }

    setTimeout(() => look(detector), 150);
  };

  button.hidden = false;
  document.getElementById('scan-stop').addEventListener('click', close);
  button.addEventListener('click', async () => {
    try {
      const detector = new BarcodeDetector({ formats: ['qr_code', 'code_128', 'data_matrix'] });
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
      picture.srcObject = stream;
      camera.hidden = false;
      await picture.play();
      look(detector);
    } catch (error) {
      close();
      failed(error.message || error.name);
    }
  });
}
