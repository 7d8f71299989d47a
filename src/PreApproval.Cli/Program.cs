using System.Text;
using PreApproval.Cli;

var utf8 = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
await using Stream input = Console.OpenStandardInput();
await using var output = new StreamWriter(Console.OpenStandardOutput(), utf8);
await using var error = new StreamWriter(Console.OpenStandardError(), utf8);
return CommandLine.Run(args, new Streams(input, output, error));
