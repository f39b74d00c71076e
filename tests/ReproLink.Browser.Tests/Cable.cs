using System.Net;
using System.Net.Sockets;

namespace ReproLink.Browser.Tests;

/// <summary>
/// The network between a browser and the service: it can be pulled, and it can lose one answer after the service has done
/// what was asked, which is the case in which things are done twice.
/// </summary>
public sealed class Cable : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly int _service;
    private readonly List<TcpClient> _open = [];
    private readonly Lock _lock = new();
    private bool _pulled;
    private string? _loses;
    private TaskCompletionSource? _lost;

    public Cable(Uri service)
    {
        ArgumentNullException.ThrowIfNull(service);
        _service = service.Port;
        _listener.Start();
        _ = Accept();
    }

    public string Address => $"http://127.0.0.1:{((IPEndPoint)_listener.LocalEndpoint).Port}";

    public void Pull()
    {
        lock (_lock)
        {
            _pulled = true;
            _open.ForEach(c => c.Dispose());
            _open.Clear();
        }
    }

    public void PlugIn()
    {
        lock (_lock)
        {
            _pulled = false;
        }
    }

    /// <summary>The next request that begins so reaches the service; its answer is lost, and the cable is pulled.</summary>
    public Task LoseAnswerOf(string request)
    {
        lock (_lock)
        {
            _loses = request;
            _lost = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            return _lost.Task;
        }
    }

    public ValueTask DisposeAsync()
    {
        _listener.Dispose();
        Pull();
        return ValueTask.CompletedTask;
    }

    private async Task Accept()
    {
        try
        {
            while (true)
            {
                var browser = await _listener.AcceptTcpClientAsync();
                lock (_lock)
                {
                    if (_pulled)
                    {
                        browser.Dispose();
                        continue;
                    }

                    _open.Add(browser);
                }

                _ = Carry(browser);
            }
        }
        catch (Exception closed) when (closed is SocketException or ObjectDisposedException)
        {
            // The test is over.
        }
    }

    private async Task Carry(TcpClient browser)
    {
        using var service = new TcpClient();
        try
        {
            await service.ConnectAsync(IPAddress.Loopback, _service);
            lock (_lock)
            {
                _open.Add(service);
            }

            var losing = false;
            await Task.WhenAny(
                Pump(browser, service, bytes => losing |= Loses(bytes)),
                Pump(service, browser, _ => losing ? Lose() : true));
        }
        catch (Exception closed) when (closed is SocketException or IOException or ObjectDisposedException)
        {
            // Pulled.
        }
        finally
        {
            browser.Dispose();
        }
    }

    private bool Loses(ReadOnlySpan<byte> bytes)
    {
        lock (_lock)
        {
            return _loses is { } request && bytes.StartsWith(System.Text.Encoding.ASCII.GetBytes(request));
        }
    }

    private bool Lose()
    {
        lock (_lock)
        {
            _loses = null;
            _lost?.TrySetResult();
        }

        Pull();
        return false;
    }

    private delegate bool Look(ReadOnlySpan<byte> bytes);

    private static async Task Pump(TcpClient from, TcpClient to, Look look)
    {
        var buffer = new byte[64 * 1024];
        int read;
        while ((read = await from.GetStream().ReadAsync(buffer)) > 0)
        {
            look(buffer.AsSpan(0, read));
            await to.GetStream().WriteAsync(buffer.AsMemory(0, read));
        }
    }
}
